/** A QR code (ISO/IEC 18004) as areas to be filled; the encoder is a library, this only lays out its modules. */
import bwipjs from 'bwip-js/node';
import type { Point } from './page.ts';

/** Quiet zone on every side, in modules: what the standard asks for. */
export const QUIET_MODULES = 4;
/** Every mark's text fits the smallest symbol at the level that mends a quarter of it. */
const LEVEL = 'Q';

interface QrCode {
  /** Of one side, without the quiet zone. */
  readonly modules: number;
  /** The dark modules of each row, as stretches from one module to another. */
  readonly rows: readonly (readonly (readonly [from: number, to: number])[])[];
}

export function qrCode(text: string): QrCode {
  const [made] = bwipjs.raw('qrcode', text, `eclevel=${LEVEL}`);
  if (made === undefined || !('pixs' in made)) throw new Error(`no code came of ${JSON.stringify(text)}`);
  const { pixs, pixx, pixy } = made;
  return {
    modules: pixx,
    rows: Array.from({ length: pixy }, (_, row) => darkStretches(pixs.slice(row * pixx, (row + 1) * pixx))),
  };
}

function darkStretches(row: readonly number[]): readonly (readonly [number, number])[] {
  const stretches: [number, number][] = [];
  row.forEach((dark, at) => {
    if (dark === 0) return;
    const last = stretches.at(-1);
    if (last?.[1] === at) last[1] = at + 1;
    else stretches.push([at, at + 1]);
  });
  return stretches;
}

/** Its areas (mm), centred at a place. */
export function qrAreas({ modules, rows }: QrCode, [xMm, yMm]: Point, moduleMm: number): readonly (readonly Point[])[] {
  const [left, top] = [xMm - (modules * moduleMm) / 2, yMm - (modules * moduleMm) / 2];
  return rows.flatMap((stretches, row) =>
    stretches.map(([from, to]): readonly Point[] => {
      const [x0, x1] = [left + from * moduleMm, left + to * moduleMm];
      const [y0, y1] = [top + row * moduleMm, top + (row + 1) * moduleMm];
      return [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ];
    }),
  );
}
