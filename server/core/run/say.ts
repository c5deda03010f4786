import { spokenLengthS } from '../words/spokenLength.ts';
import type { Audience, Call, Notice, RunEffect } from './events.ts';
import type { RunState } from './state.ts';
import { type Step, stationAt } from './turn.ts';

/** Says something at `startsAtMs`; whatever is still being said is cut off first, so that there are never two at once. */
function say(state: RunState, atMs: number, call: Omit<Call, 'id' | 'durationMs'>): Step {
  const [quiet, effects] = cutOff(state, Math.max(atMs, call.startsAtMs));
  const calls = quiet.calls + 1;
  const spoken: Call = { ...call, id: `c${calls}`, durationMs: durationMs(state, call.text) };
  return [{ ...quiet, calls, speaking: spoken }, [...effects, { kind: 'say', call: spoken }]];
}

/** Calls the bevel of a station: from now on it is what is being turned to. */
export function callBevel(state: RunState, atMs: number, index: number, cause?: string, startsAtMs = atMs): Step {
  const station = stationAt(state, index);
  const [next, effects] = say(state, atMs, {
    to: 'tilt hand',
    text: callTextAt(state, index),
    mark: station.mark,
    deg: station.callDeg,
    startsAtMs,
    ...(cause === undefined ? {} : { cause }),
  });
  return [{ ...next, turningTo: index }, effects];
}

/** Says a fixed phrase at once. */
export function sayPhrase(state: RunState, atMs: number, text: string, to: Audience, cause?: string): Step {
  return say(state, atMs, { to, text, startsAtMs: atMs, ...(cause === undefined ? {} : { cause }) });
}

/** Takes back what would still be heard at `atMs`. */
export function cutOff(state: RunState, atMs: number): Step {
  const { speaking } = state;
  if (speaking === null) return [state, []];
  const over = speaking.startsAtMs + speaking.durationMs <= atMs;
  const effects: RunEffect[] = over ? [] : [{ kind: 'cut-off', id: speaking.id }];
  return [{ ...state, speaking: null }, effects];
}

export function tell(state: RunState, notice: Notice): Step {
  return [{ ...state, notice }, [{ kind: 'tell', notice }]];
}

export function callTextAt(state: RunState, index: number): string {
  const text = state.setup.callTexts[index];
  if (text === undefined) throw new Error(`no call for station ${index}`);
  return text;
}

/** As rendered for this run; reckoned for a phrase that it was not made with, so that an old record can be read with new words. */
export function durationMs(state: RunState, text: string): number {
  return state.setup.durationsMs[text] ?? 1000 * spokenLengthS(text);
}
