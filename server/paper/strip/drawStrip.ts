/** The strip itself, in one piece, as long as it is: items along and across it, from its first edge. */

import type { Notation } from '../../core/figures/notation.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { lastRow } from '../../core/rowAt.ts';
import { MM_PER_INCH } from '../../core/units.ts';
import { stripLetters } from '../../wire/message/markCode.ts';
import { drawBars } from '../draw/bars.ts';
import type { Item } from '../draw/page.ts';
import { openPen, type Pen } from '../draw/pen.ts';
import { qrAreas, qrCode } from '../draw/qrCode.ts';
import { lengthOf } from '../paperFigures.ts';
import { codeBoxMm, type Flag, type Flagged, figuresMm, laneMm, PAD, stripHighMm } from './flags.ts';

/** Before the first mark and behind the last: room for the pins, and for what the strip says of itself. */
export const LEAD_MM = 165;
export const TAIL_MM = 60;

const MARK_LINE_MM = 0.5;

/** Marks at their `alongMm`; the strip begins at -LEAD_MM. */
export function drawStrip(
  plan: Plan,
  { build, flags }: Flagged,
  isRuled: boolean,
  joinsMm: readonly number[],
): readonly Item[] {
  const pen = openPen();
  const highMm = stripHighMm(build);
  const lastMm = lastRow(flags).alongMm;
  if (isRuled) drawRule(pen, plan.notation, lastMm, [...flags.map(({ alongMm }) => alongMm), ...joinsMm]);
  for (const flag of flags) drawMarkLine(pen, flag, highMm);
  for (const flag of flags) drawFlag(pen, flag, { build, flags });
  drawHead(pen, plan, { build, flags }, highMm);
  const other = plan.leads === 'heel' ? 'HEAD' : 'HEEL';
  const tail = Math.max(lastMm, ...flags.map(({ lane, toMm }) => (lane === null ? 0 : toMm))) + 4;
  const end = lastMm + TAIL_MM - 2;
  pen.words(other, tail, highMm / 2, { sizeMm: Math.min(9, highMm * 0.3), face: 'strong', withinMm: end - tail });
  pen.words('end of the strip', tail, highMm / 2 + 5, { sizeMm: 3.5, withinMm: end - tail });
  return pen.items;
}

/** From edge to edge, thinly behind codes and figures, which cover it; strong at both edges. */
function drawMarkLine(pen: Pen, { alongMm }: Flag, highMm: number): void {
  pen.line(
    [
      [alongMm, 0],
      [alongMm, highMm],
    ],
    { widthMm: MARK_LINE_MM },
  );
}

function drawFlag(pen: Pen, flag: Flag, { build }: Flagged): void {
  if (flag.lane === null) return;
  const { typeMm, bandMm } = build;
  const box = codeBoxMm(build);
  const top = build.headMm + flag.lane * laneMm(build);
  const [numberMm, callMm] = figuresMm(flag, typeMm);
  pen.box(flag.fromMm, top, flag.toMm - flag.fromMm, laneMm(build), 'white');
  pen.areas(qrAreas(qrCode(flag.code), [flag.alongMm, top + bandMm + box / 2], build.moduleMm), 'black');
  const isOver = build.figures === 'over the code';
  const wide = numberMm + PAD * typeMm + callMm;
  const left = isOver ? flag.alongMm - wide / 2 : flag.alongMm + box / 2;
  const base = isOver ? top + bandMm * 0.5 + typeMm * 0.35 : top + box / 2 + typeMm * 0.35;
  pen.box(left, base - typeMm * 0.82, numberMm, typeMm * 0.94, 'black');
  pen.words(`${flag.mark}`, left + PAD * typeMm, base, { sizeMm: typeMm, face: 'strong', ink: 'white' });
  pen.words(flag.call, left + numberMm + PAD * typeMm, base, { sizeMm: typeMm, face: 'strong' });
  if (isOver) return;
  // Where the figures are beside the code there is little line to be seen: a wedge on either edge points at its place.
  const [foot, reach] = [stripHighMm(build), build.footMm];
  pen.area(
    [
      [flag.alongMm, reach],
      [flag.alongMm - 1, 0],
      [flag.alongMm + 1, 0],
    ],
    'black',
  );
  pen.area(
    [
      [flag.alongMm, foot - reach],
      [flag.alongMm - 1, foot],
      [flag.alongMm + 1, foot],
    ],
    'black',
  );
}

/** A rule along the edge, so that scale and joins can be seen all along: centimetres, or half inches. */
function drawRule(pen: Pen, notation: Notation, lastMm: number, takenMm: readonly number[]): void {
  const [stepMm, longEvery] = notation === 'mm' ? [10, 10] : [MM_PER_INCH / 2, 24];
  // A figure of the rule is left out where a mark line or a join goes through it.
  const isTaken = (mm: number): boolean => takenMm.some((at) => at > mm - 3 && at < mm + 9);
  for (let step = 0; step * stepMm <= lastMm; step += 1) {
    const at = step * stepMm;
    const isLong = step % longEvery === 0;
    pen.line(
      [
        [at, 0],
        [at, isLong ? 3 : 1.6],
      ],
      { widthMm: 0.15 },
    );
    if (isLong && step > 0 && !isTaken(at))
      pen.words(notation === 'mm' ? `${at}` : lengthOf(at, notation), at + 0.8, 4.4, { sizeMm: 3, ink: 'grey' });
  }
}

/** What stands before the first mark: which end leads, whose strip it is, and the bars by which the print is checked. */
function drawHead(pen: Pen, plan: Plan, { flags }: Flagged, highMm: number): void {
  const left = -LEAD_MM + 4;
  const firstMm = Math.min(0, ...flags.map(({ lane, fromMm }) => (lane === null ? 0 : fromMm)));
  const wide = Math.min(firstMm - 3, -34) - left - 20;
  pen.arrow([left + 15, highMm * 0.5], [left, highMm * 0.5], { widthMm: Math.min(2, highMm / 14) });
  const x = left + 18;
  const isNarrow = highMm < 30;
  const size = isNarrow ? 4.2 : 8;
  const lead = `${plan.leads.toUpperCase()} LEADS${plan.leadsIsSure ? '' : ': NOT CONFIRMED'}`;
  pen.words(lead, x, isNarrow ? 5 : 10, { sizeMm: size, face: 'strong', withinMm: wide });
  const lastMm = lastRow(flags).alongMm;
  const check = `mark ${flags[0]?.mark} to mark ${flags.at(-1)?.mark}: ${lengthOf(lastMm, plan.notation)}`;
  drawWhose(pen, plan, isNarrow ? check : '', {
    xMm: x,
    baseMm: isNarrow ? 9 : 17,
    wideMm: wide,
    sizeMm: isNarrow ? 3 : 4.5,
  });
  if (!isNarrow) {
    pen.words(`Check with a steel tape, ${check}`, x, 23, { sizeMm: 4.2, face: 'strong', withinMm: wide });
    pen.words('Pin it in the end waste only.', x, 28.5, { sizeMm: 4.2, withinMm: wide });
  }
  drawBars(pen, x, isNarrow ? highMm - 5.5 : 37);
}

/**
 * Letters, check and title in one line. The letters tell which sheets belong to this strip, so they come first and whole; what
 * must be cut short is the title, before its type is too small for the shop.
 */
function drawWhose(
  pen: Pen,
  plan: Plan,
  check: string,
  { xMm, baseMm, wideMm, sizeMm }: { xMm: number; baseMm: number; wideMm: number; sizeMm: number },
): void {
  const letters = pen.words(`strip ${stripLetters(plan)}`, xMm, baseMm, { sizeMm, face: 'strong' });
  let left = xMm + letters + sizeMm * 0.7;
  if (check !== '') {
    const room = xMm + wideMm - left;
    left += pen.words(check, left, baseMm, { sizeMm, withinMm: room }) + sizeMm * 0.7;
  }
  const withinMm = xMm + wideMm - left;
  if (withinMm < 2 * sizeMm) return;
  pen.words(plan.title, left, baseMm, { sizeMm, withinMm, leastMm: sizeMm * 0.85 });
}
