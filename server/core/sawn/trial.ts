/**
 * A job's trial: the same tilts and marks on a short, straight piece of cheap stock, as a job of its own.
 *
 * Nothing is bent, so the marks lie as far apart as on the planned stock and the saw goes through the same turns at the same feed:
 * what differs on the piece is the readout's error, or the hand's time. The stretch is the one over which the tilt is turned most.
 */

import { interpolate } from '../numeric/interpolate.ts';
import type { Plan } from '../plan/plan.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { lastRow, rowAt } from '../rowAt.ts';

export interface Trial {
  readonly fromMark: number;
  readonly toMark: number;
  /** From the first mark's line to the last's. */
  readonly lengthMm: number;
  /** The bevels of the trial as its pick-up, along its stock; closer than the marks. */
  readonly bevels: readonly { readonly alongMm: number; readonly bevelDeg: number }[];
  /** Its marks: 1..n of the trial, and which marks of the job they are. */
  readonly marks: readonly { readonly mark: number; readonly ofMark: number; readonly alongMm: number }[];
  /** Where its outer half is to be measured: at each mark's line and halfway between two of them. */
  readonly measureAt: readonly { readonly alongMm: number; readonly mark: number | null; readonly bevelDeg: number }[];
}

/** Short enough for a plank's end, long enough for some turns (assumptions); four marks 150 mm apart on any frame. */
const SHORT_MM = 560;
const FEWEST_INTERVALS = 4;
const EVERY_MM = 25;

/** `whole`: over all the marks and not only the hardest stretch. */
export function trialOf(plan: Plan, { whole }: { readonly whole: boolean }): Trial {
  const { marks } = plan;
  const [from, to] = whole ? [0, marks.length - 1] : hardest(plan);
  const own = marks.slice(from, to + 1);
  const startMm = rowAt(own, 0).stockMm;
  const lengthMm = lastRow(own).stockMm - startMm;
  const sawnDeg = sawnAlong(plan);
  const at = (alongMm: number): number => sawnDeg(startMm + alongMm);
  const parts = Math.max(FEWEST_INTERVALS, Math.ceil(lengthMm / EVERY_MM));
  const places = Array.from({ length: parts + 1 }, (_, i) => (lengthMm * i) / parts);
  const lines = own.map(({ mark, stockMm }, i) => ({ mark: i + 1, ofMark: mark, alongMm: stockMm - startMm }));
  const halfway = lines.slice(1).map(({ alongMm }, i) => (alongMm + rowAt(lines, i).alongMm) / 2);
  return {
    fromMark: own[0]?.mark ?? 1,
    toMark: own.at(-1)?.mark ?? 1,
    lengthMm,
    bevels: places.map((alongMm) => ({ alongMm, bevelDeg: at(alongMm) })),
    marks: lines,
    measureAt: [
      ...lines.map(({ mark, alongMm }) => ({ alongMm, mark, bevelDeg: at(alongMm) })),
      ...halfway.map((alongMm) => ({ alongMm, mark: null, bevelDeg: at(alongMm) })),
    ].sort((a, b) => a.alongMm - b.alongMm),
  };
}

/** The bevel that is sawn along the stock. */
export function sawnAlong({ marks, curve }: Plan): (stockMm: number) => number {
  const girths = marks.map(({ girthMm }) => girthMm);
  const stocks = marks.map(({ stockMm }) => stockMm);
  const isOnMarks = (mm: number): boolean => mm > rowAt(girths, 0) && mm < lastRow(girths);
  // What is sawn is what the frame asks, but where the bevel is shared between the wedges: that is known at the marks.
  const shared = marks.map(({ girthMm, sawnDeg }) => sawnDeg - curveAt(curve, girthMm));
  const places = [...curve.filter(({ girthMm }) => isOnMarks(girthMm)).map(({ girthMm }) => girthMm), ...girths].sort(
    (a, b) => a - b,
  );
  const xs = places.map((girthMm) => interpolate(girths, stocks, girthMm));
  const ys = places.map((girthMm) => curveAt(curve, girthMm) + interpolate(girths, shared, girthMm));
  return (stockMm) => interpolate(xs, ys, stockMm);
}

const curveAt = (curve: Plan['curve'], girthMm: number): number =>
  interpolate(
    curve.map((at) => at.girthMm),
    curve.map((at) => at.bevelDeg),
    girthMm,
  );

/** First and last index of the marks between which the tilt is turned most, on a stretch that is sawn lying as the whole is. */
function hardest({ marks, hand }: Plan): readonly [number, number] {
  const last = marks.length - 1;
  let best: { readonly range: readonly [number, number]; readonly turnedDeg: number } | null = null;
  for (let from = 0; from <= last; from += 1) {
    const to = endFrom(marks, from);
    if (to === null) break;
    const stretch = marks.slice(from, to + 1);
    if (!isLaidAlike(stretch, hand)) continue;
    const turnedDeg = stretch
      .slice(1)
      .reduce((sum, { sawnDeg }, i) => sum + Math.abs(sawnDeg - rowAt(stretch, i).sawnDeg), 0);
    if (best === null || turnedDeg > best.turnedDeg) best = { range: [from, to], turnedDeg };
  }
  return best?.range ?? [0, last];
}

/** The mark at which a stretch that begins at `from` is long enough; null where none is. */
function endFrom(marks: readonly PlannedMark[], from: number): number | null {
  const startMm = rowAt(marks, from).stockMm;
  const to = marks.findIndex(({ stockMm }, i) => i >= from + FEWEST_INTERVALS && stockMm - startMm >= SHORT_MM);
  return to === -1 ? null : to;
}

const isLaidAlike = (stretch: readonly PlannedMark[], hand: number): boolean => {
  const most = stretch.reduce((a, b) => (Math.abs(b.sawnDeg) > Math.abs(a.sawnDeg) ? b : a));
  return Math.sign(most.sawnDeg) === hand;
};
