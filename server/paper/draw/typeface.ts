/** The typeface: its files, what it can write, and how wide that is. */
import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';
import type { Face } from './page.ts';

const require = createRequire(import.meta.url);
/** The package parts the typeface by what is written with it; each part is a font of its own. */
const PARTS = ['latin', 'latin-ext'] as const;
type Part = (typeof PARTS)[number];
const WEIGHTS: Readonly<Record<Face, number>> = { plain: 500, strong: 700 };

const fontName = (face: Face, part: Part): string => `${face} ${part}`;
/** Figures are all of one width, so that they stand under each other. */
export const FEATURES = ['tnum', 'kern'] as const;
export const PT_PER_MM = 72 / 25.4;

/** Names the fonts to a document; only what is used of them is put into it. */
export function registerFonts(doc: PDFKit.PDFDocument): void {
  for (const face of Object.keys(WEIGHTS) as Face[])
    for (const part of PARTS)
      doc.registerFont(
        fontName(face, part),
        require.resolve(`@fontsource/barlow/files/barlow-${part}-${WEIGHTS[face]}-normal.woff`),
      );
}

const RANGES = require('@fontsource/barlow/unicode.json') as Readonly<Record<Part, string>>;
const rangesOf = (part: Part): readonly (readonly [number, number])[] =>
  RANGES[part].split(',').map((range) => {
    const [from = '', to = from] = range.replace('U+', '').split('-');
    return [Number.parseInt(from, 16), Number.parseInt(to, 16)];
  });
const IN_PART: Readonly<Record<Part, readonly (readonly [number, number])[]>> = {
  latin: rangesOf('latin'),
  'latin-ext': rangesOf('latin-ext'),
};
const partOf = (char: string): Part | undefined => {
  const code = char.codePointAt(0) ?? 0;
  return PARTS.find((part) => IN_PART[part].some(([from, to]) => code >= from && code <= to));
};

/** What the typeface can write of a text: signs for the eye only; what it lacks is a question mark. */
export function writable(text: string): string {
  return [...text.normalize('NFC').replace(/\s+/g, ' ')]
    .filter((char) => !/[\p{Cc}\p{Cf}\p{Cs}\p{Mn}]/u.test(char))
    .map((char) => (partOf(char) === undefined ? '?' : char))
    .join('');
}

export interface Stretch {
  readonly font: string;
  readonly text: string;
}
/** A writable text in stretches of one font each: nearly always one. */
export function stretchesOf(text: string, face: Face): readonly Stretch[] {
  const stretches: { font: string; text: string }[] = [];
  for (const char of text) {
    const font = fontName(face, partOf(char) ?? 'latin');
    const last = stretches.at(-1);
    if (last?.font === font) last.text += char;
    else stretches.push({ font, text: char });
  }
  return stretches;
}

let measuring: PDFKit.PDFDocument | undefined;
/** Only measures; never written. */
function measure(): PDFKit.PDFDocument {
  if (measuring === undefined) {
    measuring = new PDFDocument({ autoFirstPage: false });
    registerFonts(measuring);
  }
  return measuring;
}

/** Widths of what was measured before, at a size of 1 mm: the same words and figures come again and again. */
const known = new Map<string, number>();
const KNOWN_AT_MOST = 20_000;

/** How wide (mm) a writable text of this size is. */
export function widthMm(text: string, face: Face, sizeMm: number): number {
  const key = `${face} ${text}`;
  const found = known.get(key);
  if (found !== undefined) return found * sizeMm;
  const doc = measure();
  const options = { features: [...FEATURES] };
  const wide = stretchesOf(text, face).reduce(
    (sum, { font, text: part }) => sum + doc.font(font).fontSize(1).widthOfString(part, options),
    0,
  );
  if (known.size >= KNOWN_AT_MOST) known.clear();
  known.set(key, wide);
  return wide * sizeMm;
}
