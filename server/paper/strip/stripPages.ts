/** The strip on its paper: tiled over sheets with join marks, or along a roll. */

import type { Plan } from '../../core/plan/plan.ts';
import { lastRow } from '../../core/rowAt.ts';
import { stripLetters } from '../../wire/message/markCode.ts';
import type { StripSize } from '../../wire/request/papers.ts';
import type { Item, Page } from '../draw/page.ts';
import { openPen, type Pen } from '../draw/pen.ts';
import { reachOf } from '../draw/reach.ts';
import { drawDiamonds, drawName, drawTab, TAB_SHOWS_MM } from './drawJoin.ts';
import { drawStrip, LEAD_MM, TAIL_MM } from './drawStrip.ts';
import { type Flag, type Flagged, flagged, stripHighMm, stripMarks } from './flags.ts';
import { MEDIA, type Medium, TAB_MM } from './media.ts';
import { inPieces, type Piece } from './pieces.ts';
import { usePage } from './usePage.ts';

/** A piece and where it lies on its page: the page's place = the strip's place + `byMm`. */
interface LaidPiece extends Piece {
  /** Counted from 0. */
  readonly page: number;
  readonly byMm: readonly [number, number];
}
export interface Strip extends Flagged {
  readonly pages: readonly Page[];
  readonly pieces: readonly LaidPiece[];
  readonly highMm: number;
}

/** Over every row of a sheet, for its caption. */
const CAPTION_MM = 4.6;
const GAP_MM = 0.6;

export function layStrip(plan: Plan, size: StripSize): Strip {
  const medium = MEDIA[size];
  const made = flagged(stripMarks(plan), medium.builds);
  const highMm = stripHighMm(made.build);
  const lastMm = lastRow(made.flags).alongMm;
  const pieces = inPieces(
    made.flags.filter(({ lane }) => lane !== null),
    -LEAD_MM,
    lastMm + TAIL_MM,
    medium.longestMm,
  );
  const laid = pieces.map((piece, index) => layPiece(piece, index, medium, highMm));
  const joins = pieces.slice(1).map(({ fromMm }) => fromMm);
  const items = drawStrip(plan, made, medium.builds[0].figures === 'over the code', joins);
  const printed = { items, ...made, highMm, letters: pieces.length > 1 ? stripLetters(plan) : null };
  const pages = Array.from({ length: lastRow(laid).page + 1 }, (_, page) => {
    const here = laid.filter((piece) => piece.page === page);
    return medium.kind === 'sheets' ? sheetPage(here, pieces.length, printed, medium) : rollPage(here, printed, medium);
  });
  const use = usePage(plan, size, made);
  return { ...made, pieces: laid, highMm, pages: [...pages, use] };
}

function layPiece(piece: Piece, index: number, medium: Medium, highMm: number): LaidPiece {
  const [xMm, yMm] = medium.marginMm;
  if (medium.kind === 'roll')
    return { ...piece, page: index, byMm: [xMm - piece.fromMm, (medium.sizeMm[1] - highMm) / 2] };
  const rowMm = highMm + CAPTION_MM + GAP_MM;
  const rows = Math.max(1, Math.floor((medium.sizeMm[1] - 2 * yMm) / rowMm));
  return {
    ...piece,
    page: Math.floor(index / rows),
    byMm: [xMm - piece.fromMm, yMm + CAPTION_MM + (index % rows) * rowMm],
  };
}

/** What of the strip a piece shows: from its own edge to the end of the tab that the next one covers. */
const shownTo = ({ toMm, isLast }: Piece): number => (isLast ? toMm : toMm + TAB_MM);

/**
 * How far the strip itself shows on a tab, where the eye lays the next piece by it: not into a flag that begins there, whose sliver
 * would read as a mark of its own.
 */
export const tabShowsTo = ({ toMm }: Pick<Piece, 'toMm'>, flags: readonly Flag[]): number =>
  Math.min(
    toMm + TAB_SHOWS_MM,
    ...flags.filter(({ lane, fromMm }) => lane !== null && fromMm >= toMm).map(({ fromMm }) => fromMm),
  );

interface Printed extends Flagged {
  readonly items: readonly Item[];
  readonly highMm: number;
  /** The strip's letters, to stand on each piece; null where there is only one. */
  readonly letters: string | null;
}

function putPiece(pen: Pen, piece: LaidPiece, { items, build, flags, highMm, letters }: Printed): void {
  const joins = openPen();
  if (piece.piece > 1) drawDiamonds(joins, piece.fromMm, highMm);
  if (!piece.isLast) drawTab(joins, piece, highMm);
  if (letters !== null) drawName(joins, piece, letters, { build, flags });
  const stripTo = piece.isLast ? piece.toMm : tabShowsTo(piece, flags);
  putWindow(pen, piece, stripTo, items, highMm);
  putWindow(pen, piece, shownTo(piece), joins.items, highMm);
}

function putWindow(pen: Pen, { byMm, fromMm }: LaidPiece, toMm: number, items: readonly Item[], highMm: number): void {
  const shown = items.filter((item) => {
    const { leftMm, rightMm } = reachOf(item);
    return rightMm > fromMm && leftMm < toMm;
  });
  pen.put({ kind: 'window', byMm, fromMm: [fromMm, 0], toMm: [toMm, highMm], items: shown });
}

function sheetPage(pieces: readonly LaidPiece[], of: number, printed: Printed, { sizeMm }: Medium): Page {
  const { highMm } = printed;
  const pen = openPen();
  for (const piece of pieces) {
    const [x, y] = [piece.fromMm + piece.byMm[0], piece.byMm[1]];
    const wide = shownTo(piece) - piece.fromMm;
    const how = piece.piece === 1 ? '' : ` Left edge on the dashed line of piece ${piece.piece - 1}, diamonds whole.`;
    pen.words(`Piece ${piece.piece} of ${of}. Print at 100 %, not "fit to page". Cut out.${how}`, x, y - 1.2, {
      sizeMm: 3.4,
      withinMm: wide,
    });
    putPiece(pen, piece, printed);
    drawOutline(pen, x, y, wide, highMm);
  }
  return { widthMm: sizeMm[0], heightMm: sizeMm[1], isTurned: false, items: pen.items };
}

/** Where it is cut: four lines of their own, each exactly at its place. */
function drawOutline(pen: Pen, x: number, y: number, wide: number, high: number): void {
  const cut = { widthMm: 0.15 };
  for (const at of [x, x + wide])
    pen.line(
      [
        [at, y],
        [at, y + high],
      ],
      cut,
    );
  for (const at of [y, y + high])
    pen.line(
      [
        [x, at],
        [x + wide, at],
      ],
      cut,
    );
}

function rollPage(pieces: readonly LaidPiece[], printed: Printed, medium: Medium): Page {
  const { highMm } = printed;
  const pen = openPen();
  let long = 0;
  for (const piece of pieces) {
    putPiece(pen, piece, printed);
    const to = shownTo(piece) + piece.byMm[0];
    const [left, top] = [medium.marginMm[0], piece.byMm[1]];
    if (piece.piece > 1)
      pen.line(
        [
          [left, top],
          [left, top + highMm],
        ],
        { widthMm: 0.15 },
      );
    long = to + medium.marginMm[0];
  }
  return { widthMm: long, heightMm: medium.sizeMm[1], isTurned: true, items: pen.items };
}
