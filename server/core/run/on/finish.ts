import { cutOff, phrasesOf, sayPhrase } from '../call/say.ts';
import { follow, type Step } from '../engine/effects.ts';
import type { RunState } from '../engine/state.ts';

/** The last mark is at the blade. */
export function finish(state: RunState, atMs: number, cause?: string): Step {
  return follow(
    state,
    (now) => cutOff(now, atMs),
    (now) => sayPhrase(now, atMs, phrasesOf(now).runDone, 'everyone', cause),
    (now) => [{ ...now, phase: 'finished' }, []],
  );
}
