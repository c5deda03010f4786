/** Where two pieces of a strip are joined: the line, the diamonds, and the tab that comes to lie under the next piece. */
import { openPen, type Pen } from '../draw/pen.ts';
import { widthMm } from '../draw/typeface.ts';
import { type Flagged, stripHighMm } from './flags.ts';
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

/** Between the piece's edge and its name: clear of the diamonds. */
const NAME_FROM_MM = 4;
const NAME_MM = 3.6;
/** A foot lower than this has no room for words. */
const FOOT_FOR_NAME_MM = 5;

/**
 * Which strip's, and which piece: inside the cut, so that pieces which were cut out and mixed up are told apart. In the foot, where
 * only mark lines are, between two of them where there is room; on a tape along the edge, before the first flag.
 */
export function drawName(pen: Pen, { piece, fromMm, toMm }: Piece, letters: string, { build, flags }: Flagged): void {
  const highMm = stripHighMm(build);
  const name = `${letters} ${piece}`;
  if (build.footMm < FOOT_FOR_NAME_MM) {
    const half = highMm / 2;
    pen.words(name, fromMm + 2.7, half, {
      sizeMm: 2.4,
      face: 'strong',
      align: 'middle',
      isUpright: true,
      withinMm: half,
    });
    return;
  }
  const wideMm = widthMm(name, 'strong', NAME_MM);
  const lines = flags.map(({ alongMm }) => alongMm);
  const isClear = (at: number): boolean => lines.every((line) => line < at - 1 || line > at + wideMm + 1);
  const starts = [fromMm + NAME_FROM_MM, ...lines.map((line) => line + 1.5)].filter(
    (at) => at >= fromMm + NAME_FROM_MM && at + wideMm < toMm - NAME_FROM_MM,
  );
  const at = starts.find(isClear) ?? fromMm + NAME_FROM_MM;
  const base = highMm - 2.2;
  if (!isClear(at)) pen.box(at - 0.6, base - NAME_MM * 0.82, wideMm + 1.2, NAME_MM * 0.94, 'white');
  pen.words(name, at, base, { sizeMm: NAME_MM, face: 'strong' });
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
