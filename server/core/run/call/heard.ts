/** Who hears the run, and what may go on when nobody does. Silence is never "carry on": only a person says that it goes on unheard. */
import type { Heard } from '../engine/events.ts';
import type { RunState } from '../engine/state.ts';

/** From the least to the most. */
const ORDER: readonly Heard[] = ['nobody', 'stops', 'bevels'];
const atLeast = (heard: Heard, wanted: Heard): boolean => ORDER.indexOf(heard) >= ORDER.indexOf(wanted);

/** A server that stood still finds presses waiting that were meant for another place: they have all come in within this time. */
const QUEUED_MS = 1000;

/** As much is heard now as the people at the saw have come to rely on. */
export const isStillHeard = ({ hears, relies }: RunState): boolean => atLeast(hears, relies);

/** Somebody hears more, or less, than before. What was once heard in a run is relied on until a person says otherwise. */
export function heardBy(state: RunState, hears: Heard): RunState {
  const isMore = state.phase !== 'ready' && atLeast(hears, state.relies);
  return { ...state, hears, relies: isMore ? hears : state.relies };
}

/** From a start or a resume: what is heard now is what is relied on. */
export const relyingOnNow = (state: RunState, isToldWithoutSound: boolean): RunState => ({
  ...state,
  relies: isToldWithoutSound || state.phase === 'ready' ? state.hears : state.relies,
  isWithoutSound: isToldWithoutSound || (state.hears === 'nobody' && (state.phase === 'ready' || state.isWithoutSound)),
});

/** Why a lost run does not go on by a press or a mark: what is lost, and what to do. Null where it does. */
export function whyNotByPress(state: RunState, atMs: number): string | null {
  const { phase, lost, isWithoutSound } = state;
  if (phase !== 'lost' || lost === null) return null;
  if (lost.by === 'server' && atMs - lost.atMs < QUEUED_MS)
    return 'the server stood still, and this may have waited since: see which mark is at the blade, then resume';
  if (isWithoutSound) return null;
  if (!isStillHeard(state))
    return 'nobody hears the calls, so nothing goes on: confirm the sound on a listener and resume, or resume without sound';
  return lost.by === 'travel'
    ? null
    : 'the calls were not heard for a time: see which mark is at the blade, then resume';
}
