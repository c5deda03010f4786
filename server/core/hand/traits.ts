/**
 * What a modelled tilt hand is like. For trying the program itself (`simulate`, the benches), never for judging a person.
 * Each figure names its source and status; an assumption is called one.
 */
import { type Handwheel, looseDeg, wheelDegPerS } from '../saw/handwheel.ts';

/** A reaction to a plain sound takes 160 ms (check values, section 8; second-hand): no recognised number is acted on sooner. */
export const QUICKEST_MS = 160;

export interface HandTraits {
  /**
   * From the end of the words to the wheel moving, median of a lognormal. Usual: the crew's own; for recognition 384 ms was
   * measured (Laming, Information Theory of Choice-Reaction Times, 1968, second-hand).
   */
  readonly reactionMs: number;
  /** Standard deviation of its logarithm: a fifth (assumption; simple reactions spread by 10 to 20 %, from memory). */
  readonly reactionSpread: number;
  /** Fastest turning of the wheel, even degrees: the crew's turns a second (no published comfortable rate was found). */
  readonly degPerMs: number;
  /** From standing to the fastest turning, and back to a stand (assumption). */
  readonly startUpMs: number;
  /** A person stops anywhere within the step in which the readout shows the figure (derived: even over the step). */
  readonly readoutDeg: number;
  /** Looseness between wheel and tilt (assumption). */
  readonly backlashDeg: number;
  /** Looseness that the shop has told, in even degrees of the wheel: the readout is watched, so it is turned through each time. */
  readonly takenUpDeg?: number;
  /** Where a turn is not worth the same everywhere: the wheel then goes by even degrees. */
  readonly wheel?: Handwheel;
  /** Share of calls heard as another number, and of calls not heard (assumptions). */
  readonly misheard: number;
  readonly unheard: number;
  /** A misheard figure so far off is not believed and not turned to: bevels change little from mark to mark (assumption). */
  readonly unbelievableDeg: number;
  /** Share of turns that end a whole step beside the figure: misreading a digital readout, 0.001 (NUREG/CR-1278, from memory). */
  readonly slips: number;
  /** Standard deviation of a span of time that is kept by feeling, as a share of it: 5 % (Getty 1975, from memory). */
  readonly rhythmSpread: number;
  /** How it follows a display, where the routine is to follow one. */
  readonly follows: FollowingTraits;
}

/**
 * McRuer and Krendel's crossover model, w_c e^(-tau s)/s (AGARD-AG-188, second-hand), looking ahead as people do who see what
 * comes: van der El, Padmos, Pool, van Paassen and Mulder, IEEE Trans. Human-Machine Systems 48 (2018), 486-495 (abstract
 * read): for such an element more than 0.6 s of preview is used no further. Behind a steady ramp the hand then lags by
 * rate x (1/w_c + smoothing - look-ahead) (derived). The display is taken to show what is so at once (assumption; it keeps within
 * 0.1 degree of that through jitter, as its own tests hold). What rests on the look-ahead, the reaction and the rate is told by
 * `npm run bench -- tilt-error`, which puts worse hands beside this one.
 */
interface FollowingTraits {
  /** w_c: "a few rad/s"; 3. */
  readonly crossoverPerMs: number;
  /** tau: 0.1 to 0.3 s; 200 ms. */
  readonly delayMs: number;
  readonly lookAheadMs: number;
  /** The target is followed smoothed by so much: what is left of the look-ahead with no lag behind a ramp (assumption). */
  readonly smoothingMs: number;
  /**
   * What a person does beside the model, as noise on the error that is seen: its density is a hundredth of pi of the error's
   * variance, -20 dB (Levison, Baron and Kleinman, IEEE Trans. Man-Machine Systems 10 (1969), 101-108, from memory).
   */
  readonly remnant: number;
}

const CROSSOVER_PER_MS = 3e-3;
const LOOK_AHEAD_MS = 600;

export const usualHand = (
  crew: { readonly reactionS: number; readonly turnsPerS: number },
  degreesPerTurn: number,
  readoutDeg: number,
  { turnsTable, backlashTurns }: Omit<Handwheel, 'degreesPerTurn'> = {},
): HandTraits => ({
  reactionMs: crew.reactionS * 1000,
  reactionSpread: 0.2,
  degPerMs: wheelDegPerS({ saw: { degreesPerTurn }, crew }) / 1000,
  startUpMs: 200,
  readoutDeg,
  backlashDeg: backlashTurns === undefined ? 0.1 : 0,
  ...(backlashTurns === undefined ? {} : { takenUpDeg: looseDeg({ degreesPerTurn, backlashTurns }) }),
  ...(turnsTable === undefined ? {} : { wheel: { degreesPerTurn, turnsTable } }),
  misheard: 0.002,
  unheard: 0.001,
  unbelievableDeg: 8,
  slips: 0.001,
  rhythmSpread: 0.05,
  follows: {
    crossoverPerMs: CROSSOVER_PER_MS,
    delayMs: 200,
    lookAheadMs: LOOK_AHEAD_MS,
    smoothingMs: LOOK_AHEAD_MS - 1 / CROSSOVER_PER_MS,
    remnant: 0.01,
  },
});

/** The same hand on a perfect day, without chance or looseness: for what the model says in closed form, and for the pace. */
export const withoutChance = (hand: HandTraits): HandTraits => ({
  ...hand,
  reactionSpread: 0,
  readoutDeg: 0,
  backlashDeg: 0,
  misheard: 0,
  unheard: 0,
  slips: 0,
  rhythmSpread: 0,
  follows: { ...hand.follows, remnant: 0 },
});
