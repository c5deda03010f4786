/** A PDF as others see it: poppler's pictures of its pages, and poppler's reading of its text. */
import { execFile } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Picture } from './picture.ts';

const run = promisify(execFile);

/** Lays the PDF on the disk for as long as it is looked at. */
async function onDisk<T>(pdf: Uint8Array, look: (dir: string, file: string) => Promise<T>): Promise<T> {
  const dir = await mkdtemp(join(tmpdir(), 'by-the-mark-'));
  try {
    const file = join(dir, 'paper.pdf');
    await writeFile(file, pdf);
    return await look(dir, file);
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}

/** What a program of poppler says of it. */
const told = (pdf: Uint8Array, program: string, args: (file: string) => string[]): Promise<string> =>
  onDisk(pdf, async (_dir, file) => (await run(program, args(file), { maxBuffer: 64_000_000 })).stdout);

/** Every page in grey. */
export function pictures(pdf: Uint8Array, dotsPerInch = 300): Promise<readonly Picture[]> {
  return onDisk(pdf, async (dir, file) => {
    await run('pdftoppm', ['-r', `${dotsPerInch}`, '-gray', file, join(dir, 'page')]);
    const names = (await readdir(dir)).filter((name) => name.endsWith('.pgm'));
    const number = (name: string): number => Number(/(\d+)\.pgm$/.exec(name)?.[1]);
    names.sort((a, b) => number(a) - number(b));
    return Promise.all(names.map(async (name) => readPgm(await readFile(join(dir, name)))));
  });
}

function readPgm(file: Buffer): Picture {
  const [, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(file.toString('latin1', 0, 64)) ?? [];
  const size = Number(width) * Number(height);
  return { width: Number(width), height: Number(height), grey: new Uint8Array(file.subarray(file.length - size)) };
}

export interface Word {
  readonly text: string;
  /** From the page's upper left corner. */
  readonly leftMm: number;
  readonly topMm: number;
  readonly rightMm: number;
  readonly bottomMm: number;
}
export interface ReadPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly words: readonly Word[];
  /** All words in the order of the page, with single spaces. */
  readonly text: string;
}

const MM_PER_PT = 25.4 / 72;

export async function readPages(pdf: Uint8Array): Promise<readonly ReadPage[]> {
  const stdout = await told(pdf, 'pdftotext', (file) => ['-bbox', file, '-']);
  return stdout
    .split('<page ')
    .slice(1)
    .map((page) => {
      const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(page) ?? [];
      const words = [...page.matchAll(/<word xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.*?)<\/word>/g)].map(
        ([, left, top, right, bottom, text = '']): Word => ({
          text: plain(text),
          leftMm: Number(left) * MM_PER_PT,
          topMm: Number(top) * MM_PER_PT,
          rightMm: Number(right) * MM_PER_PT,
          bottomMm: Number(bottom) * MM_PER_PT,
        }),
      );
      return {
        widthMm: Number(width) * MM_PER_PT,
        heightMm: Number(height) * MM_PER_PT,
        words,
        text: words.map(({ text }) => text).join(' '),
      };
    });
}

/** The words of each line of a page, from above. */
export function linesOf({ words }: ReadPage): readonly string[] {
  const rows: { middle: number; words: (typeof words)[number][] }[] = [];
  for (const word of words) {
    const middle = (word.topMm + word.bottomMm) / 2;
    const row = rows.find((each) => Math.abs(each.middle - middle) < 2.5);
    if (row === undefined) rows.push({ middle, words: [word] });
    else row.words.push(word);
  }
  return rows
    .toSorted((a, b) => a.middle - b.middle)
    .map(({ words: row }) =>
      row
        .toSorted((a, b) => a.leftMm - b.leftMm)
        .map(({ text }) => text)
        .join(' '),
    );
}

const plain = (text: string): string =>
  text
    .replace(/&quot;/g, '"')
    .replace(/&apos;/g, "'")
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&amp;/g, '&');

/** The fonts of a PDF, as poppler lists them. */
export async function fontsOf(
  pdf: Uint8Array,
): Promise<readonly { readonly name: string; readonly embedded: boolean }[]> {
  const stdout = await told(pdf, 'pdffonts', (file) => [file]);
  return stdout
    .split('\n')
    .slice(2)
    .filter((line) => line !== '')
    .map((line) => ({ name: line.split(/\s+/)[0] ?? '', embedded: /Identity-H\s+yes/.test(line) }));
}

/** How many pictures are in it: a vector drawing has none. */
export async function imagesIn(pdf: Uint8Array): Promise<number> {
  const stdout = await told(pdf, 'pdfimages', (file) => ['-list', file]);
  return stdout
    .split('\n')
    .slice(2)
    .filter((line) => line.trim() !== '').length;
}
