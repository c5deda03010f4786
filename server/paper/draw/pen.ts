/** Draws on a list of items: lines, areas and words, each word measured before it is written. */
import { unbrokenWords } from '../../core/figures/inches.ts';
import type { Face, Ink, Item, Point } from './page.ts';
import { widthMm, writable } from './typeface.ts';

export interface Type {
  readonly sizeMm: number;
  readonly face?: Face;
  readonly ink?: Ink;
}
interface Placed extends Type {
  readonly align?: 'left' | 'middle' | 'right';
  /** Made smaller to fit, down to `leastMm` (or half), then cut short. */
  readonly withinMm?: number;
  readonly leastMm?: number;
  readonly isUpright?: boolean;
}
interface Stroke {
  readonly widthMm?: number;
  readonly ink?: Ink;
  readonly dashMm?: readonly [number, number];
}

export interface Pen {
  readonly items: readonly Item[];
  /** One line of words; gives its width (mm). */
  words(text: string, xMm: number, baseMm: number, placed: Placed): number;
  /** Words over as many lines as they need; gives where the next line's top would be (mm). */
  block(text: string, xMm: number, topMm: number, wideMm: number, type: Type): number;
  line(points: readonly Point[], stroke?: Stroke): void;
  area(points: readonly Point[], fill: Ink | undefined, stroke?: Stroke): void;
  box(xMm: number, yMm: number, wideMm: number, highMm: number, fill: Ink | undefined, stroke?: Stroke): void;
  /** Many areas that are one figure, such as a code. */
  areas(lines: readonly (readonly Point[])[], fill: Ink): void;
  /** A line with a head at its end. */
  arrow(from: Point, to: Point, stroke?: Stroke): void;
  put(item: Item): void;
}

export const LEADING = 1.25;
const FINE_MM = 0.25;

export function openPen(items: Item[] = []): Pen {
  const pen: Pen = {
    items,
    words(text, xMm, baseMm, placed) {
      const { face = 'plain', ink = 'black', align = 'left', isUpright = false } = placed;
      const set = fitted(writable(text), face, placed);
      const wide = widthMm(set.text, face, set.sizeMm);
      if (set.text.trim() === '') return 0;
      const back = align === 'left' ? 0 : align === 'middle' ? wide / 2 : wide;
      const [x, y] = isUpright ? [xMm, baseMm + back] : [xMm - back, baseMm];
      items.push({ kind: 'text', ...set, xMm: x, baseMm: y, face, ink, isUpright });
      return wide;
    },
    block(text, xMm, topMm, wideMm, type) {
      const { sizeMm, face = 'plain' } = type;
      let top = topMm;
      for (const line of wrap(writable(text), face, sizeMm, wideMm)) {
        pen.words(line, xMm, top + sizeMm, type);
        top += sizeMm * LEADING;
      }
      return top;
    },
    line: (points, stroke = {}) =>
      void items.push({ kind: 'path', lines: [points], isClosed: false, stroke: strokeOf(stroke) }),
    area: (points, fill, stroke) =>
      void items.push({
        kind: 'path',
        lines: [points],
        isClosed: true,
        ...(fill === undefined ? {} : { fill }),
        ...(stroke === undefined ? {} : { stroke: strokeOf(stroke) }),
      }),
    box: (x, y, wide, high, fill, stroke) =>
      pen.area(
        [
          [x, y],
          [x + wide, y],
          [x + wide, y + high],
          [x, y + high],
        ],
        fill,
        stroke,
      ),
    areas: (lines, fill) => void items.push({ kind: 'path', lines, isClosed: true, fill }),
    arrow(from, to, stroke = {}) {
      const { widthMm: wide = FINE_MM, ink = 'black' } = stroke;
      const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
      const size = Math.hypot(dx, dy) || 1;
      const [ux, uy] = [dx / size, dy / size];
      const head = Math.max(2, wide * 5);
      const neck: Point = [to[0] - ux * head, to[1] - uy * head];
      pen.line([from, neck], stroke);
      const half = head * 0.42;
      pen.area([to, [neck[0] - uy * half, neck[1] + ux * half], [neck[0] + uy * half, neck[1] - ux * half]], ink);
    },
    put: (item) => void items.push(item),
  };
  return pen;
}

const strokeOf = ({ widthMm: wide = FINE_MM, ink = 'black', dashMm }: Stroke) => ({
  ink,
  widthMm: wide,
  ...(dashMm === undefined ? {} : { dashMm }),
});

/** The text as large as it may be and fits; cut short with three dots where the least size is still too wide. */
function fitted(
  text: string,
  face: Face,
  { sizeMm, withinMm, leastMm = sizeMm / 2 }: Placed,
): { text: string; sizeMm: number } {
  if (withinMm === undefined) return { text, sizeMm };
  const wide = widthMm(text, face, sizeMm);
  if (wide <= withinMm) return { text, sizeMm };
  const smaller = Math.max(Math.min(leastMm, sizeMm), (sizeMm * withinMm) / wide);
  const chars = [...text];
  let shown = text;
  while (chars.length > 0 && widthMm(shown, face, smaller) > withinMm * 1.0001) {
    chars.pop();
    shown = `${chars.join('').trimEnd()}…`;
  }
  return { text: shown, sizeMm: smaller };
}

/** In lines no wider than given; a word that is wider by itself is broken. A whole number stays beside its fraction. */
export function wrap(text: string, face: Face, sizeMm: number, wideMm: number): readonly string[] {
  const lines: string[] = [];
  const spaceMm = widthMm(' ', face, sizeMm);
  let line = '';
  let longMm = 0;
  for (const word of unbrokenWords(text).flatMap((each) => broken(each, face, sizeMm, wideMm))) {
    const wordMm = widthMm(word, face, sizeMm);
    if (line !== '' && longMm + spaceMm + wordMm > wideMm) {
      lines.push(line);
      [line, longMm] = [word, wordMm];
    } else [line, longMm] = line === '' ? [word, wordMm] : [`${line} ${word}`, longMm + spaceMm + wordMm];
  }
  return line === '' ? lines : [...lines, line];
}

function broken(word: string, face: Face, sizeMm: number, wideMm: number): readonly string[] {
  if (widthMm(word, face, sizeMm) <= wideMm) return [word];
  const parts: string[] = [];
  let part = '';
  for (const char of word) {
    if (part !== '' && widthMm(part + char, face, sizeMm) > wideMm) {
      parts.push(part);
      part = '';
    }
    part += char;
  }
  return [...parts, part];
}
