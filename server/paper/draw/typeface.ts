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
/** The font as it was opened for the document: its ranges name many signs for which it has no drawing. */
interface OpenedFont {
  hasGlyphForCodePoint(code: number): boolean;
}
const hasDrawing = (part: Part, code: number): boolean => {
  const opened = measure().font(fontName('plain', part)) as unknown as { _font: { font: OpenedFont } };
  return opened._font.font.hasGlyphForCodePoint(code);
};
const parts = new Map<number, Part | undefined>();
/** Marks that are set over the sign before are not placed by the pen: as good as lacking. */
function partOf(char: string): Part | undefined {
  const code = char.codePointAt(0) ?? 0;
  if (!parts.has(code)) {
    const isIn = (part: Part): boolean => IN_PART[part].some(([from, to]) => code >= from && code <= to);
    parts.set(code, /\p{M}/u.test(char) ? undefined : PARTS.find((part) => isIn(part) && hasDrawing(part, code)));
  }
  return parts.get(code);
}

/** Signs that have a plain writing of their own. */
const INSTEAD: Readonly<Record<string, string>> = { '\u2116': 'No.' };
/** What is not for the eye: controls, and the signs that choose between two pictures of the one before. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}]|\p{Variation_Selector}/u;

/** The number of a sign, as it is looked up: `U+03A9`. */
const numberOf = (char: string): string =>
  `U+${(char.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
const isLacking = (char: string): boolean => partOf(char) === undefined && INSTEAD[char] === undefined;
const seen = (text: string): readonly string[] =>
  [...text.normalize('NFC').replace(/\s+/g, ' ')].filter((char) => !UNSEEN.test(char));

/** Signs of a text that the typeface lacks, each once. */
export const lackingSigns = (text: string): readonly string[] => [...new Set(seen(text).filter(isLacking))];

/**
 * What the typeface can write of a text: signs for the eye only. One that it lacks is written as its number: two names that differ
 * in nothing else must not look the same.
 */
export const writable = (text: string): string =>
  seen(text)
    .map((char) => (isLacking(char) ? numberOf(char) : (INSTEAD[char] ?? char)))
    .join('');

interface Stretch {
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
