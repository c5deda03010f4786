import { expect } from 'vitest';
import type { RefusalCode, RunEffect, RunEvent } from '../../server/core/run/engine/events.ts';
import { initialState } from '../../server/core/run/engine/initialState.ts';
import type { RunSetup, RunState } from '../../server/core/run/engine/state.ts';
import { step } from '../../server/core/run/step.ts';
import { smallSetup } from './runSetup.ts';

/** What is looked at in an effect: its kind and any of its fields, the call's and the notice's too. */
type Seen = { readonly kind: RunEffect['kind'] } & Readonly<Record<string, unknown>>;

/**
 * Tests of the engine that read as sentences: `given(events).when(event).gives(effects).leaves({ phase: 'stopped' })`.
 * On the way each state is put through JSON, since every run may be restarted anywhere.
 */
export function runSpec(setup: RunSetup = smallSetup()) {
  return {
    given: (...events: readonly RunEvent[]) => {
      const start = events.reduce((state, event) => taken(state, event)[0], initialState(setup));
      return { when: (event: RunEvent) => outcome(start, ...taken(start, event)) };
    },
  };
}

function taken(state: RunState, event: RunEvent): ReturnType<typeof step> {
  const kept: RunState = JSON.parse(JSON.stringify(state));
  expect(kept).toEqual(state);
  return step(kept, event);
}

function outcome(before: RunState, after: RunState, effects: readonly RunEffect[]) {
  const told = {
    /** Exactly these effects, in this order; of each, what is named. */
    gives(...wanted: readonly Seen[]) {
      expect(effects.map(flat)).toEqual(wanted.map((seen) => expect.objectContaining(seen)));
      return told;
    },
    leaves(wanted: Partial<RunState>) {
      expect(after).toMatchObject(wanted);
      return told;
    },
    /** Not taken: told so, and everything as before. */
    isRefused(code: RefusalCode) {
      expect(effects).toEqual([expect.objectContaining({ kind: 'refuse', code })]);
      expect(after).toEqual(before);
      return told;
    },
    changesNothing() {
      expect(effects).toEqual([]);
      expect(after).toEqual(before);
      return told;
    },
  };
  return told;
}

function flat(effect: RunEffect): Seen {
  switch (effect.kind) {
    case 'say':
      return { ...effect.call, kind: effect.kind };
    case 'tell':
      return { ...effect.notice, kind: effect.kind };
    default:
      return { ...effect };
  }
}
