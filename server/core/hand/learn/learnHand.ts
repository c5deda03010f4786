/**
 * What a run with tilt readings tells of its tilt hand: how long from the end of the words to the wheel moving, and how fast it
 * is then turned. A choice among many numbers is answered in some 0.3 to 1 s (Hick, Q. J. Exp. Psychol. 4 (1952), 11-26;
 * Laming 1968: 384 ms to recognise; second-hand, check values section 8). The sensor's own delay counts as the person's: for
 * timing a call it is no different.
 */
import { rowAt } from '../../rowAt.ts';
import { estimateOf, type HandEstimate } from './estimate.ts';
import type { HandRecord } from './handRecord.ts';
import { noiseDeg, withSilences } from './noise.ts';
import { fitOnset, type Onset, onsetErrors } from './onset.ts';
import { type ReadTurn, readTurns, SOONEST_MS } from './readTurns.ts';

export interface LearntHand {
  /** Bevels called in the run. */
  readonly calls: number;
  /** Seconds. */
  readonly reactionS: Learnt;
  /** Turns of the handwheel a second, at full turning. */
  readonly turnsPerS: Learnt;
}
export type Learnt =
  | { readonly ok: true; readonly estimate: HandEstimate }
  | { readonly ok: false; readonly code: NotLearntCode; readonly message: string };
type NotLearntCode = keyof typeof MESSAGES;

const MESSAGES = {
  'no-tilt-readings': 'There are no tilt readings in this run, so nothing can be learnt of the hand.',
  'display-followed': 'The display was followed, so there are no turns to a call to learn from.',
  'turned-evenly': 'The tilt was turned evenly from mark to mark, so the turns tell neither reaction nor full speed.',
  'too-few-turns':
    'Too few turns could be read: at least 5 are needed, each to a call heard out, from a wheel that stood.',
  'too-uneven': 'The turns differ too much from one to the next to say a figure of this person.',
  'page-wheel-limit':
    'The wheel on the page goes no faster than it was turned, so it does not tell how fast a real one is.',
} as const;

const notLearnt = (code: NotLearntCode): Learnt => ({ ok: false, code, message: MESSAGES[code] });

/** Longer than this after the words a turn answers something else. */
const LATEST_MS = 3000;
/** How long speeding up takes, looked for among these; 200 ms give or take 150 is what a hand is held to be like before (assumption). */
const START_UPS_MS = [0, 50, 100, 150, 200, 250, 300, 350, 400, 450, 500];
const START_UP = { meanMs: 200, sdMs: 150 };
/** A fit that leaves more than this many times the noise, and than this share of the way, is of no simple turn. */
const BAD_NOISES = 2.5;
const BAD_SHARE = 0.06;
/** A turn whose beginning is blurred by more than this tells nothing of a reaction. */
const BLURRED_MS = 120;
/** A rate that is blurred by more than this share tells nothing of a rate. */
const BLURRED_RATE = 0.25;
/** What is left of the wheel's looseness in a turn that goes on the same way (found on the modelled hand). */
const LOOSE_MS = 15;
/** Where the logarithms spread by more than this, nine in ten turns would be planned at more than twice the middle (assumption). */
const MOST_SPREAD = 0.55;
/** At this share of what the page's wheel allows, it is the page that was measured. */
const AT_THE_LIMIT = 0.9;

export function learnHand(record: HandRecord): LearntHand {
  const calls = record.bevels.length;
  const neither = (code: NotLearntCode): LearntHand => ({
    calls,
    reactionS: notLearnt(code),
    turnsPerS: notLearnt(code),
  });
  if (record.tilts.length === 0) return neither('no-tilt-readings');
  if (record.turns === 'by the display') return neither('display-followed');
  if (record.turns === 'evenly') return neither('turned-evenly');
  const tilts = withSilences(record.tilts);
  const noise = noiseDeg(tilts);
  const turns = fitted(readTurns({ ...record, tilts }, noise), noise);
  return { calls, reactionS: reactionOf(turns, noise), turnsPerS: rateOf(turns, noise, record) };
}

interface FittedTurn {
  readonly turn: ReadTurn;
  readonly onset: Onset;
  readonly startUpMs: number;
  /** What the unsure speeding up and the looseness leave unsure in the beginning of every turn alike. */
  readonly commonMs: number;
}

/** Speeding up is the same person's in every turn, so that all turns together tell how long it takes. */
function fitted(turns: readonly ReadTurn[], noise: number): readonly FittedTurn[] {
  const fits = turns.flatMap((turn) => {
    const onsets = START_UPS_MS.map((startUpMs) => onsetIn(turn, startUpMs));
    return isSimple(turn, onsets, noise) ? [{ turn, onsets }] : [];
  });
  const misfits = START_UPS_MS.map(
    (startUpMs, i) =>
      fits.reduce((sum, { onsets }) => sum + (rowAt(onsets, i)?.squares ?? 0), 0) / noise ** 2 +
      ((startUpMs - START_UP.meanMs) / START_UP.sdMs) ** 2,
  );
  const least = Math.min(...misfits);
  const odds = misfits.map((misfit) => Math.exp((least - misfit) / 2));
  const all = odds.reduce((sum, each) => sum + each, 0);
  const over = (values: readonly number[]): number =>
    values.reduce((sum, value, i) => sum + (rowAt(odds, i) * value) / all, 0);
  const startUpMs = over(START_UPS_MS);
  const sdMs = Math.sqrt(over(START_UPS_MS.map((each) => (each - startUpMs) ** 2)));
  return fits.flatMap(({ turn }) => {
    const onset = onsetIn(turn, startUpMs);
    // Half of the speeding up is what the beginning moves by with it.
    return onset === null ? [] : [{ turn, onset, startUpMs, commonMs: Math.hypot(sdMs / 2, LOOSE_MS) }];
  });
}

const onsetIn = ({ overMs, readings }: ReadTurn, startUpMs: number): Onset | null =>
  fitOnset(readings, overMs - LATEST_MS / 4, readings.at(-1)?.atMs ?? overMs, startUpMs);

function isSimple(turn: ReadTurn, onsets: readonly (Onset | null)[], noise: number): boolean {
  const least = onsets.reduce(
    (best, onset) => Math.min(best, onset?.squares ?? Number.POSITIVE_INFINITY),
    Number.POSITIVE_INFINITY,
  );
  const left = Math.sqrt(least / Math.max(1, turn.readings.length - 3));
  const onset = onsets[0];
  const isRightWay = onset != null && Math.sign(onset.degPerMs) === Math.sign(turn.wayDeg);
  return isRightWay && left <= Math.max(BAD_NOISES * noise, BAD_SHARE * Math.abs(turn.wayDeg));
}

function reactionOf(turns: readonly FittedTurn[], noise: number): Learnt {
  const measured = turns.flatMap(({ turn, onset, startUpMs }) => {
    const afterMs = onset.atMs - turn.overMs;
    if (turn.isFirst || !turn.isOnward || afterMs < SOONEST_MS || afterMs > LATEST_MS) return [];
    const error = onsetErrors(turn.readings, onset, startUpMs, noise).atMs;
    return error > BLURRED_MS ? [] : [{ value: afterMs / 1000, error: error / 1000 }];
  });
  // A record may hold no turn at all; then nothing is shared, and too few are told.
  const commonMs = turns.length === 0 ? 0 : rowAt(turns, 0).commonMs;
  return learntFrom(estimateOf(measured, commonMs / 1000));
}

function rateOf(turns: readonly FittedTurn[], noise: number, record: HandRecord): Learnt {
  const measured = turns.flatMap(({ turn, onset, startUpMs }) => {
    const degPerMs = Math.abs(onset.degPerMs);
    // A short turn is slowed down again before it was at its full rate.
    if (turn.isFirst || Math.abs(turn.wayDeg) < 1.25 * degPerMs * startUpMs) return [];
    const error = onsetErrors(turn.readings, onset, startUpMs, noise).rate;
    const turnsPerS = (1000 * degPerMs) / record.degreesPerTurn;
    return error > BLURRED_RATE ? [] : [{ value: turnsPerS, error: error * turnsPerS }];
  });
  const learnt = learntFrom(estimateOf(measured));
  const limit = record.pageWheelTurnsPerS;
  return learnt.ok && limit !== null && learnt.estimate.median >= AT_THE_LIMIT * limit
    ? notLearnt('page-wheel-limit')
    : learnt;
}

function learntFrom(estimate: HandEstimate | null): Learnt {
  if (estimate === null) return notLearnt('too-few-turns');
  return estimate.spread > MOST_SPREAD ? notLearnt('too-uneven') : { ok: true, estimate };
}
