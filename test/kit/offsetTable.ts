import type { OffsetTable } from '../../server/core/hull/offsets.ts';

/** A point (y, z), and whether the section turns sharply there. */
export type DrawnPoint = readonly [yMm: number, zMm: number, knuckle?: 'knuckle'];

/** The table of a hull that is drawn by its sections, each from the keel up, rounded to `stepMm` (0: not). */
export function offsetTable(
  xsMm: readonly number[],
  section: (xMm: number) => readonly DrawnPoint[],
  stepMm = 0,
): OffsetTable {
  const rounded = (mm: number): number => (stepMm === 0 ? mm : stepMm * Math.round(mm / stepMm));
  let row = 0;
  return {
    file: 'offsets.csv',
    stations: xsMm.map((xMm, i) => ({
      label: `${i}`,
      xMm,
      points: section(xMm).map(([y, z, knuckle]) => {
        row += 1;
        const [yMm, zMm] = [rounded(y), rounded(z)];
        return {
          yMm,
          zMm,
          isKnuckle: knuckle !== undefined,
          yCell: { row, column: 'y', text: `${yMm}` },
          zCell: { row, column: 'z', text: `${zMm}` },
        };
      }),
    })),
  };
}

/** `count` places from `from` to `to`, evenly. */
export const evenly = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
