/** The bars by which a print is checked: was it made at full size? */
import { MM_PER_INCH } from '../../core/units.ts';
import type { Pen } from './pen.ts';

/** Bars of 100 mm and of 4 in, one over the other. */
export function drawBars(pen: Pen, xMm: number, yMm: number): void {
  const bars = [
    [100, '100 mm'],
    [4 * MM_PER_INCH, '4 in'],
  ] as const;
  bars.forEach(([long, name], index) => {
    const y = yMm + index * 4;
    pen.line(
      [
        [xMm, y],
        [xMm + long, y],
      ],
      { widthMm: 0.3 },
    );
    for (const end of [xMm, xMm + long])
      pen.line(
        [
          [end, y - 1.2],
          [end, y + 1.2],
        ],
        { widthMm: 0.3 },
      );
    pen.box(xMm + long / 2 - 8, y - 1.7, 16, 3.4, 'white');
    pen.words(name, xMm + long / 2, y + 1.1, { sizeMm: 3.2, align: 'middle' });
  });
}
