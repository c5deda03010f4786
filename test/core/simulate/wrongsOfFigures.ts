/**
 * What must never be in a run where figures are called as they come due (server/core/run/call/degreeCalls.ts): a figure that is not the
 * right one where it is due, within half a step and 0.05 degrees; words over later than half the way on to the next; more left
 * out than halves between whole degrees, unless it was told that the feed is too fast.
 */
import type { Simulated, SimulatedCall } from '../../../server/core/simulate/simulation.ts';
import type { Stretch, Wanted } from './wanted.ts';
import type { Wrong } from './wrong.ts';

/** A wheel with marks may be so far off (holds for the track: within 5 mm); one alone by its slip besides. */
const PLACE_MM = 5;
const SLIP = 0.005;
const offMm = (placeMm: number): number => PLACE_MM + SLIP * placeMm;
/** A call may come so much before its turn is centred on its place. */
const EARLY_MS = 400;
const LEFT_OUT_BY_RULE = 1;
/** That the feed is too fast is told where a call is torn off or left out, and stands for what comes of it. */
const TOLD_BEFORE_MS = 2000;

export function wrongsOfFigures(wanted: Wanted, run: Simulated, feedMmPerMs: number): readonly Wrong[] {
  const wrongs: Wrong[] = [];
  let held = 0;
  // A call that was cut off was not passed over.
  let begun = 0;
  for (const [index, call] of run.calls.entries()) {
    if (call.deg === null || call.mark !== null) continue;
    const name = `call ${index + 1}, "${call.text}" with the wood at ${call.startsAtMm.toFixed(0)} to ${call.endsAtMm.toFixed(0)} mm,`;
    const isRepeat = isSaidAgain(run.calls, index);
    const due = stretchFor(wanted, call);
    const stretch = wanted.stretches[due];
    if (stretch === undefined) {
      wrongs.push({ kind: 'wrong figure', what: `${name} is nowhere right from here on` });
      continue;
    }
    // Wood that was stopped, or pulled back, while it was said would have gone on.
    const goesToMm = Math.max(call.endsAtMm, call.startsAtMm + feedMmPerMs * (call.endsAtMs - call.startsAtMs));
    if (!call.isCutOff && stretch.fromMm - goesToMm > soonMm(wanted, wanted.stretches[held], stretch, feedMmPerMs))
      wrongs.push({ kind: 'wrong figure', what: `${name} is not right before ${stretch.fromMm.toFixed(0)} mm` });
    // Said again, it is late only where it is no longer right for the wood at the blade.
    const byMm = isRepeat ? stretch.toMm : (stretch.fromMm + stretch.toMm) / 2;
    if (!call.isCutOff && call.endsAtMm > byMm + SLIP * byMm && due < wanted.stretches.length - 1)
      wrongs.push({
        kind: isRepeat ? 'late repeat' : 'late',
        what: `${name} is right from ${stretch.fromMm.toFixed(0)} to ${stretch.toMm.toFixed(0)} mm`,
      });
    const isTold = run.told.some(
      ({ code, atMs }) => code === 'too-fast' && atMs <= call.startsAtMs && atMs > call.startsAtMs - TOLD_BEFORE_MS,
    );
    // One that is held need not be said again where the one between was left out.
    const heldDeg = wanted.stretches[begun]?.deg;
    const leftOut = wanted.stretches.slice(begun + 1, due).filter(({ deg }) => deg !== heldDeg).length;
    if (leftOut > LEFT_OUT_BY_RULE && !isRepeat && !isTold)
      wrongs.push({ kind: 'passed over', what: `${name} leaves out ${leftOut} figures before it` });
    begun = due;
    if (!call.isCutOff) held = due;
  }
  return wrongs;
}

/** Behind a stop what is right for the wood at the blade is said, once more or for the first time. */
function isSaidAgain(calls: readonly SimulatedCall[], index: number): boolean {
  const before = calls[index - 1];
  return before !== undefined && (before.deg === null || before.deg === calls[index]?.deg);
}

/** The stretch that a figure is for: of those with its figure that are not behind the wood, the one nearest to the end of its words. */
function stretchFor({ stretches }: Wanted, { deg, startsAtMm, endsAtMm }: SimulatedCall): number {
  let nearest = -1;
  let leastMm = Number.POSITIVE_INFINITY;
  for (const [index, stretch] of stretches.entries()) {
    const fits = Math.abs(stretch.deg - (deg ?? Number.NaN)) < 1e-9 && stretch.toMm > startsAtMm - offMm(startsAtMm);
    const farMm = Math.max(0, stretch.fromMm - endsAtMm, endsAtMm - stretch.toMm);
    if (!fits || farMm >= leastMm) continue;
    nearest = index;
    leastMm = farMm;
  }
  return nearest;
}

/** From the end of the words to where the figure becomes right: the reaction and half the turn, and what a person may be early. */
function soonMm({ degPerMs, reactionMs }: Wanted, from: Stretch | undefined, to: Stretch, feedMmPerMs: number): number {
  const turnMs = Math.abs(to.deg - (from?.deg ?? to.deg)) / degPerMs;
  return offMm(to.fromMm) + feedMmPerMs * (reactionMs + turnMs / 2 + EARLY_MS);
}
