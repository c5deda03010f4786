/** Where two pieces of a strip are joined: the line, the diamonds, and the tab that comes to lie under the next piece. */
import { openPen, type Pen } from '../draw/pen.ts';
import { TAB_MM } from './media.ts';
import type { Piece } from './pieces.ts';

/** So much of the tab goes on showing the strip, for the eye to lay the next piece by. */
export const TAB_SHOWS_MM = 5;
/** Half of a diamond's width, and how far its middle is from the strip's edges: clear of all codes. */
const DIAMOND_MM = 1.9;
const FROM_EDGE_MM = 3.1;

/** Half of each diamond is on either piece: they are whole again where the pieces lie right. */
export function drawDiamonds(pen: Pen, atMm: number, highMm: number): void {
  const half = Math.min(DIAMOND_MM, highMm / 12);
  const edge = Math.min(FROM_EDGE_MM, half * 1.6);
  for (const y of [edge, highMm - edge])
    pen.area(
      [
        [atMm - half, y],
        [atMm, y - half],
        [atMm + half, y],
        [atMm, y + half],
      ],
      'black',
    );
}

export function drawTab(pen: Pen, piece: Piece, highMm: number): void {
  const at = piece.toMm;
  drawDiamonds(pen, at, highMm);
  pen.line(
    [
      [at, 0],
      [at, highMm],
    ],
    { widthMm: 0.15, dashMm: [2.5, 0.5] },
  );
  const words = openPen();
  words.words(`piece ${piece.piece + 1} on this line`, at + TAB_MM - 2.4, highMm / 2, {
    sizeMm: 3.6,
    align: 'middle',
    isUpright: true,
    withinMm: highMm * 0.9,
  });
  pen.put({
    kind: 'window',
    byMm: [0, 0],
    fromMm: [at + TAB_SHOWS_MM, 0],
    toMm: [at + TAB_MM, highMm],
    items: words.items,
  });
}
