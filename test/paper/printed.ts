/** A PDF as others see it: MuPDF's pictures of its pages, and MuPDF's reading of its text. */
import * as mupdf from 'mupdf';
import type { Picture } from './picture.ts';

const POINTS_PER_INCH = 72;

/** What `look` finds on each page, in their order. */
function onPages<T>(pdf: Uint8Array, look: (page: mupdf.Page) => T): readonly T[] {
  const document = mupdf.Document.openDocument(pdf, 'application/pdf');
  const found: T[] = [];
  for (let index = 0; index < document.countPages(); index += 1) {
    const page = document.loadPage(index);
    found.push(look(page));
    page.destroy();
  }
  document.destroy();
  return found;
}

/** Every page in grey. */
export function pictures(pdf: Uint8Array, dotsPerInch = 300): Promise<readonly Picture[]> {
  const scale = mupdf.Matrix.scale(dotsPerInch / POINTS_PER_INCH, dotsPerInch / POINTS_PER_INCH);
  return Promise.resolve(
    onPages(pdf, (page) => {
      const pixmap = page.toPixmap(scale, mupdf.ColorSpace.DeviceGray, false);
      const [width, height] = [pixmap.getWidth(), pixmap.getHeight()];
      // Copied: the pixels lie in memory that is used again.
      const grey = new Uint8Array(pixmap.getPixels());
      pixmap.destroy();
      return { width, height, grey };
    }),
  );
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

const MM_PER_PT = 25.4 / POINTS_PER_INCH;

export function readPages(pdf: Uint8Array): Promise<readonly ReadPage[]> {
  return Promise.resolve(
    onPages(pdf, (page) => {
      const [left, top, right, bottom] = page.getBounds();
      const words = wordsOn(page);
      return {
        widthMm: (right - left) * MM_PER_PT,
        heightMm: (bottom - top) * MM_PER_PT,
        words,
        text: words.map(({ text }) => text).join(' '),
      };
    }),
  );
}

/** Letters that follow one another without a space, on one line. */
function wordsOn(page: mupdf.Page): readonly Word[] {
  const words: Word[] = [];
  let letters: { text: string; quad: mupdf.Quad }[] = [];
  const endWord = (): void => {
    if (letters.length > 0) words.push(wordOf(letters));
    letters = [];
  };
  const text = page.toStructuredText('preserve-whitespace,preserve-ligatures');
  text.walk({
    onChar(letter, _origin, _font, _size, quad) {
      if (letter.trim() === '') endWord();
      else letters.push({ text: letter, quad });
    },
    endLine: endWord,
  });
  endWord();
  text.destroy();
  return words;
}

function wordOf(letters: readonly { readonly text: string; readonly quad: mupdf.Quad }[]): Word {
  const xs = letters.flatMap(({ quad: [a, , b, , c, , d] }) => [a, b, c, d]);
  const ys = letters.flatMap(({ quad: [, a, , b, , c, , d] }) => [a, b, c, d]);
  return {
    text: letters.map(({ text }) => text).join(''),
    leftMm: Math.min(...xs) * MM_PER_PT,
    topMm: Math.min(...ys) * MM_PER_PT,
    rightMm: Math.max(...xs) * MM_PER_PT,
    bottomMm: Math.max(...ys) * MM_PER_PT,
  };
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

/** The dictionaries of a PDF, whatever points to them. */
function dictionariesIn(pdf: Uint8Array): readonly mupdf.PDFObject[] {
  const document = new mupdf.PDFDocument(pdf);
  return Array.from({ length: document.countObjects() - 1 }, (_, index) =>
    document.newIndirect(index + 1).resolve(),
  ).filter((object) => object.isDictionary() || object.isStream());
}
const nameIn = (object: mupdf.PDFObject, key: string): string => {
  const value = object.get(key);
  return value.isName() ? value.asName() : '';
};

/** The fonts of a PDF: those that are described, and whether the letters themselves are in it. */
export function fontsOf(pdf: Uint8Array): readonly { readonly name: string; readonly embedded: boolean }[] {
  return dictionariesIn(pdf)
    .filter((object) => nameIn(object, 'Type') === 'Font' && !object.get('DescendantFonts').isArray())
    .map((font) => {
      const descriptor = font.get('FontDescriptor');
      const embedded =
        !descriptor.isNull() && ['FontFile', 'FontFile2', 'FontFile3'].some((key) => !descriptor.get(key).isNull());
      return { name: nameIn(font, 'BaseFont'), embedded };
    });
}

/** How many pictures are in it: a vector drawing has none. */
export const imagesIn = (pdf: Uint8Array): number =>
  dictionariesIn(pdf).filter((object) => nameIn(object, 'Subtype') === 'Image').length;
