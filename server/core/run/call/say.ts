import { ORDERS, type Phrases } from '../../words/phraseNames.ts';
import { phrases } from '../../words/phrases.ts';
import { longestSpokenS } from '../../words/spokenLength.ts';
import { type Step, stationAt } from '../engine/effects.ts';
import type { Audience, Call, Notice, RunEffect, RunNoticeCode } from '../engine/events.ts';
import type { RunState } from '../engine/state.ts';

/**
 * Says something at `startsAtMs`; whatever is still being said is cut off first, so that there are never two at once. But an
 * order is cut off by another order alone: anything else waits for its end.
 */
export function say(state: RunState, atMs: number, call: Omit<Call, 'id' | 'durationMs'>): Step {
  const isOrder = ORDERS.some((name) => phrasesOf(state)[name] === call.text);
  const startsAtMs = isOrder ? call.startsAtMs : Math.max(call.startsAtMs, orderEndsAtMs(state));
  const [quiet, effects] = isOrder ? cutOffAll(state, atMs) : cutOff(state, Math.max(atMs, startsAtMs));
  const calls = quiet.calls + 1;
  const spoken: Call = { ...call, startsAtMs, id: `c${calls}`, durationMs: durationMs(state, call.text) };
  const order = isOrder ? { id: spoken.id, endsAtMs: startsAtMs + spoken.durationMs } : state.order;
  return [{ ...quiet, calls, order, speaking: spoken }, [...effects, { kind: 'say', call: spoken }]];
}

/** Before this nothing but an order is begun. */
export const orderEndsAtMs = ({ order }: RunState): number => order?.endsAtMs ?? Number.NEGATIVE_INFINITY;

/** Calls the bevel of a station: from now on it is what is being turned to. `text`: in other words than all of them. */
export function callBevel(
  state: RunState,
  atMs: number,
  index: number,
  { text = callTextAt(state, index), cause }: { readonly text?: string; readonly cause?: string | undefined } = {},
): Step {
  const station = stationAt(state, index);
  const [next, effects] = say(state, atMs, {
    to: 'tilt hand',
    text,
    mark: station.mark,
    deg: station.callDeg,
    startsAtMs: atMs,
    ...(cause === undefined ? {} : { cause }),
  });
  const lost = index === state.turningTo ? [] : lostCall(next, state, atMs);
  return [{ ...next, turningTo: index, step: -1, givenUp: -1 }, [...effects, ...lost]];
}

/** Another bevel is called before the last one was heard out, and it will not be said again. */
function lostCall(now: RunState, { turningTo, givenUp }: RunState, atMs: number): readonly RunEffect[] {
  // The first bevel is turned to and checked before the wood comes.
  if (turningTo < 1 || turningTo === givenUp || isHeard(now, turningTo, atMs)) return [];
  const reason = 'its call was cut off by the next one';
  return [{ kind: 'missed', mark: stationAt(now, turningTo).mark, reason }];
}

/** Says a fixed phrase at once. */
export function sayPhrase(state: RunState, atMs: number, text: string, to: Audience, cause?: string): Step {
  return say(state, atMs, { to, text, startsAtMs: atMs, ...(cause === undefined ? {} : { cause }) });
}

/** Takes back what would still be heard at `atMs`, but for an order. */
export function cutOff(state: RunState, atMs: number): Step {
  const { speaking, order } = state;
  if (speaking === null || (speaking.id === order?.id && !isOver(speaking, atMs))) return [state, []];
  const heard = heardAt(state, atMs);
  const effects: RunEffect[] = isOver(speaking, atMs) ? [] : [{ kind: 'cut-off', id: speaking.id }];
  return [{ ...state, heard, speaking: null }, effects];
}

/** Takes back all that would still be heard: an order that another takes the place of, and what waited for its end. */
function cutOffAll(state: RunState, atMs: number): Step {
  const { order, speaking } = state;
  const isStillSaid = order !== null && order.endsAtMs > atMs;
  const [quiet, effects] = cutOff({ ...state, order: null }, atMs);
  return isStillSaid && order.id !== speaking?.id
    ? [quiet, [{ kind: 'cut-off', id: order.id }, ...effects]]
    : [quiet, effects];
}

/** The call for this station, or a later one, was heard to its end by then. */
export const isHeard = (state: RunState, index: number, atMs: number): boolean => heardAt(state, atMs) >= index;

function heardAt(state: RunState, atMs: number): number {
  const { speaking, heard, turningTo, setup } = state;
  const isOfStation = speaking?.mark !== undefined && setup.stations[turningTo]?.mark === speaking.mark;
  return isOfStation && isOver(speaking, atMs) ? Math.max(heard, turningTo) : heard;
}

const isOver = ({ startsAtMs, durationMs: lastsMs }: Call, atMs: number): boolean => startsAtMs + lastsMs <= atMs;

/** What is being said at `atMs`, or waits for its moment; null where nothing is. */
export const stillSaid = ({ speaking }: RunState, atMs: number): Call | null =>
  speaking === null || isOver(speaking, atMs) ? null : speaking;

export function tell(state: RunState, notice: Notice<RunNoticeCode>): Step {
  return [{ ...state, notice }, [{ kind: 'tell', notice }]];
}

export function callTextAt(state: RunState, index: number): string {
  const text = state.setup.callTexts[index];
  if (text === undefined) throw new Error(`no call for station ${index}`);
  return text;
}

/** Every wording of a station's call, each once: all of the words first, the fewest last. */
export function textsAt(state: RunState, index: number): readonly [string, ...string[]] {
  const { shortTexts, shortestTexts } = state.setup;
  const full = callTextAt(state, index);
  const fewer = [shortTexts?.[index], shortestTexts?.[index]].filter((text) => text !== undefined);
  return [full, ...fewer.filter((text, i) => text !== full && fewer.indexOf(text) === i)];
}

/** The phrases of this run's voice. */
export const phrasesOf = ({ setup }: RunState): Phrases => setup.phrases ?? phrases;

/** As rendered for this run; reckoned for a phrase that it was not made with, so that an old record can be read with new words. */
export function durationMs(state: RunState, text: string): number {
  return state.setup.durationsMs[text] ?? 1000 * longestSpokenS(text);
}
