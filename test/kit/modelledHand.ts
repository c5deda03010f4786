/**
 * A run of the real engine with a modelled tilt hand of known traits and a modelled tilt sensor: what a journal would hold of it.
 * The hand goes in steps of 5 ms, and the sensor has no delay of its own, so that what is learnt can be held against the truth.
 */
import { forget, hear, hold, restingHand, turnOn } from '../../server/core/hand/hand.ts';
import type { HandTraits } from '../../server/core/hand/traits.ts';
import { draws } from '../../server/core/numeric/draws.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { Routine } from '../../server/core/routine/routine.ts';
import type { RunEvent } from '../../server/core/run/engine/events.ts';
import { initialState } from '../../server/core/run/engine/initialState.ts';
import type { RunSetup } from '../../server/core/run/engine/state.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { step } from '../../server/core/run/step.ts';
import { trueTiltDeg } from '../../server/core/saw/readout.ts';
import { phrasesOfRun } from '../../server/core/words/phrases.ts';
import { spokenLengthS } from '../../server/core/words/spokenLength.ts';
import { handRecordOf } from '../../server/live/record/handRecordOf.ts';
import type { JournalEntry } from '../../server/wire/kept/journalLine.ts';

export interface ModelledRun {
  readonly plan: Plan;
  readonly traits: HandTraits;
  readonly seed: number;
  readonly mPerMin?: number;
  readonly routine?: Routine;
  readonly source?: 'travel' | 'press';
  readonly sensor?: {
    readonly everyMs?: number;
    readonly sdDeg?: number;
    readonly offsetDeg?: number;
    readonly stepDeg?: number;
    readonly onlyChanges?: boolean;
  };
  /** The sawyer says stop at this time, and goes on 4 s later. */
  readonly stopsAtMs?: number;
}

const STEP_MS = 5;
const COUNT_EVERY_MS = 40;
const BEGINS_MS = 15_000;

export const setupOf = (plan: Plan, routine: Routine = 'mark by mark'): RunSetup =>
  withReckonedWords(makeSetup(plan, 'rehearsal', {}, routine));

const withReckonedWords = (setup: RunSetup): RunSetup => ({
  ...setup,
  durationsMs: Object.fromEntries(phrasesOfRun(setup).map(({ text }) => [text, 1000 * spokenLengthS(text, 'en')])),
});

export function modelledEntries(run: ModelledRun): readonly JournalEntry[] {
  const { plan, traits, seed, mPerMin = 2, routine = 'mark by mark', source = 'travel', sensor = {} } = run;
  const { everyMs = 40, sdDeg = 0.05, offsetDeg = 0, stepDeg = 0, onlyChanges = false } = sensor;
  const setup = setupOf(plan, routine);
  const draw = draws(seed);
  const entries: JournalEntry[] = [];
  let state = initialState(setup);
  let hand = restingHand();
  let positionMm = 0;
  let marksPressed = 0;
  let sentDeg = Number.NaN;

  const take = (event: RunEvent): void => {
    const [next, effects] = step(state, event);
    if (effects.some(({ kind }) => kind === 'refuse')) return;
    if (event.kind !== 'woken' || effects.length > 0) entries.push(event);
    state = next;
    for (const effect of effects) {
      if (effect.kind === 'cut-off') {
        entries.push({ kind: 'cancelled', atMs: event.atMs, id: effect.id });
        hand = forget(hand, effect.id, event.atMs);
      }
      if (effect.kind !== 'say') continue;
      const { call } = effect;
      entries.push({ kind: 'called', atMs: event.atMs, ...call });
      if (call.deg === undefined) {
        if (state.phase !== 'feeding') hand = hold(hand);
        continue;
      }
      const heard = {
        id: call.id,
        deg: call.deg,
        overMs: call.startsAtMs + call.durationMs,
        evenMs: null,
        trueTiltDeg: (shown: number) => trueTiltDeg(shown, plan.saw.readoutTable),
      };
      hand = hear(hand, heard, traits, draw);
    }
  };

  take({ kind: 'started', atMs: 0, withoutSound: false });
  for (let atMs = STEP_MS; state.phase !== 'finished' && atMs < 600_000; atMs += STEP_MS) {
    while (state.wakeAtMs !== null && state.wakeAtMs <= atMs) take({ kind: 'woken', atMs: state.wakeAtMs });
    if (run.stopsAtMs !== undefined && atMs === run.stopsAtMs) take({ kind: 'stopped', atMs, by: 'page' });
    if (run.stopsAtMs !== undefined && atMs === run.stopsAtMs + 4000) take({ kind: 'resumed', atMs });
    if (atMs > BEGINS_MS && state.phase === 'feeding') positionMm += (mPerMin / 60) * STEP_MS;
    if (source === 'travel' && atMs % COUNT_EVERY_MS === 0 && atMs >= BEGINS_MS)
      take({ kind: 'moved', atMs, mm: Math.round(positionMm * 10) / 10 });
    const mark = setup.stations[marksPressed];
    if (source === 'press' && mark !== undefined && atMs > BEGINS_MS && positionMm >= mark.positionMm) {
      marksPressed += 1;
      take({ kind: 'pressed', gesture: 'next', atMs });
    }
    hand = turnOn(hand, atMs - STEP_MS, STEP_MS, traits);
    if (atMs % everyMs !== 0) continue;
    const exact = hand.wheel.tiltDeg + offsetDeg + sdDeg * draw.normal();
    const deg = stepDeg > 0 ? Math.round(exact / stepDeg) * stepDeg : exact;
    if (onlyChanges && deg === sentDeg) continue;
    sentDeg = deg;
    take({ kind: 'tilted', atMs, deg });
  }
  return entries;
}

export const modelledRecord = (run: ModelledRun) =>
  handRecordOf({ plan: run.plan, setup: setupOf(run.plan, run.routine) }, modelledEntries(run));
