/** The strip as it lies on the lath: its pieces laid over each other where their marks say, in one picture. */

import type { Plan } from '../../server/core/plan/plan.ts';
import { toPdf } from '../../server/paper/draw/toPdf.ts';
import { LEAD_MM } from '../../server/paper/strip/drawStrip.ts';
import { layStrip, type Strip } from '../../server/paper/strip/stripPages.ts';
import type { StripSize } from '../../server/wire/request/papers.ts';
import { darkMiddle, layBack, type Picture } from './picture.ts';
import { pictures } from './printed.ts';

export const DOTS_PER_MM = 300 / 25.4;

export interface JoinedStrip {
  readonly strip: Strip;
  readonly pdf: Uint8Array;
  readonly pages: readonly Picture[];
  readonly picture: Picture;
  /** From the left of the picture to a place along the strip, in dots. */
  dotsAt(alongMm: number): number;
}

const SEEK_MM = 0.7;

/**
 * Each piece is cut at its own left edge, as found in the picture, and laid with it on the join line of the piece before, as
 * found in that one's picture; nothing of where they should be is used beyond where to look.
 */
export async function joinedStrip(plan: Plan, size: StripSize): Promise<JoinedStrip> {
  const strip = layStrip(plan, size);
  const pdf = await toPdf(strip.pages, plan.title);
  const pages = (await pictures(pdf)).map((page, index) =>
    strip.pages[index]?.isTurned === true ? layBack(page) : page,
  );
  const high = Math.round(strip.highMm * DOTS_PER_MM);
  // At the very foot, where there is nothing but lines.
  const rows = [1, 0.3].map((mm) => (strip.highMm - mm) * DOTS_PER_MM);
  let along = 0;
  const laid = strip.pieces.map((piece) => {
    const page = pages[piece.page];
    if (page === undefined) throw new Error(`no page ${piece.page}`);
    const top = piece.byMm[1] * DOTS_PER_MM;
    const find = (mm: number): number => {
      const x = (mm + piece.byMm[0]) * DOTS_PER_MM;
      const reach = SEEK_MM * DOTS_PER_MM;
      return darkMiddle(page, [x - reach, x + reach], [top + (rows[0] ?? 0), top + (rows[1] ?? 0)]);
    };
    const isCut = piece.piece > 1 || !(strip.pages[piece.page]?.isTurned ?? false);
    const from = isCut ? find(piece.fromMm) : (piece.fromMm + piece.byMm[0]) * DOTS_PER_MM;
    const to = piece.isLast ? (piece.toMm + piece.byMm[0]) * DOTS_PER_MM : find(piece.toMm);
    const begins = along;
    along += to - from;
    return { page, top, from, begins, ends: along };
  });
  const width = Math.round(along);
  const grey = new Uint8Array(width * high).fill(255);
  for (const { page, top, from, begins, ends } of laid)
    for (let y = 0; y < high; y += 1) {
      const [left, right] = [Math.round(begins), Math.min(width, Math.round(ends))];
      const source = (y + Math.round(top)) * page.width + Math.round(left - begins + from);
      grey.set(page.grey.subarray(source, source + right - left), y * width + left);
    }
  return { strip, pdf, pages, picture: { width, height: high, grey }, dotsAt: (mm) => (mm + LEAD_MM) * DOTS_PER_MM };
}
