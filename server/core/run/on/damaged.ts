import { cutOff, tell } from '../call/say.ts';
import { follow, refuse, type Step } from '../engine/effects.ts';
import type { RunEvent } from '../engine/events.ts';
import type { RunState } from '../engine/state.ts';
import { atStation, standing } from '../place/position.ts';

type Damaged = Extract<RunEvent, { kind: 'damaged' }>;
type Placed = Extract<RunEvent, { kind: 'placed' }>;

/** A run whose record is not whole never goes on by itself: nobody knows how far the wood has come. */
export function damaged(state: RunState, { atMs, fromLine, toLine }: Damaged): Step {
  if (state.phase === 'finished') return [state, []];
  const which = toLine === null ? `from line ${fromLine} on` : linesText(fromLine, toLine);
  return follow(
    { ...state, phase: 'stopped', reckoning: null, isPlaceKnown: false },
    (now) => cutOff(now, atMs),
    (now) =>
      tell(now, {
        code: 'damaged',
        message: `The record of this run is damaged, ${which}. Where the wood stands is not known. Hold the tilt. See which mark is at the blade and say it on the sawyer page; then resume.`,
      }),
  );
}

/** Until a person has looked nothing goes on, and no reading takes the run to its end. */
export const placeUnknown = (state: RunState): Step =>
  refuse(state, 'place-unknown', 'the record of this run is damaged: say first which mark is at the blade');

/** A person has looked: that mark is at the blade, and everything that was believed of the place is forgotten. */
export function placed(state: RunState, { atMs, mark }: Placed): Step {
  if (state.isPlaceKnown) return refuse(state, 'place-known', 'this run knows which mark is at the blade');
  const index = mark === 0 ? -1 : state.setup.stations.findIndex((station) => station.mark === mark);
  if (mark !== 0 && index < 0)
    return refuse(
      state,
      'no-such-mark',
      `mark ${mark} is not in this run, which has marks 1 to ${state.setup.stations.length}; 0 is before the first`,
    );
  const anew: RunState = {
    ...state,
    reached: index + 1,
    turningTo: index,
    step: -1,
    stepByMm: null,
    reckoning: null,
    isPlaceKnown: true,
    lastPress: null,
    scannedMark: null,
    guessed: 0,
    earned: null,
    notice: null,
  };
  return [index < 0 ? anew : standing(atStation(anew, index, 0, atMs, 'press').state, atMs), []];
}

export const linesText = (fromLine: number, toLine: number): string =>
  fromLine === toLine ? `line ${fromLine}` : `lines ${fromLine} to ${toLine}`;
