import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RunEffect, RunEvent } from '../../../server/core/run/engine/events.ts';
import { initialState } from '../../../server/core/run/engine/initialState.ts';
import { fold } from '../../../server/core/run/fold.ts';
import { step } from '../../../server/core/run/step.ts';
import { ORDERS } from '../../../server/core/words/phraseNames.ts';
import { phrases } from '../../../server/core/words/phrases.ts';
import { makesSense } from '../../kit/callLog.ts';
import { cases } from '../../kit/cases.ts';
import { degreeSetup, smallSetup } from '../../kit/runSetup.ts';

/** An event without its time, and the time since the one before. */
const anything = fc.record({
  waitMs: fc.integer({ min: 0, max: 4000 }),
  what: fc.oneof(
    { weight: 6, arbitrary: fc.constant({ kind: 'pressed', gesture: 'next' } as const) },
    {
      weight: 1,
      arbitrary: fc.constantFrom('again', 'back', 'stop').map((gesture) => ({ kind: 'pressed', gesture }) as const),
    },
    {
      weight: 3,
      arbitrary: fc.record({
        kind: fc.constant('scanned' as const),
        mark: fc.integer({ min: 1, max: 7 }),
        offsetMm: fc.constantFrom(0, 0, -30, 4),
      }),
    },
    { weight: 6, arbitrary: fc.record({ kind: fc.constant('moved' as const), mm: fc.integer({ min: 0, max: 700 }) }) },
    {
      weight: 1,
      arbitrary: fc.constantFrom(false, true).map((withoutSound) => ({ kind: 'resumed', withoutSound }) as const),
    },
    {
      weight: 1,
      arbitrary: fc.constantFrom('bevels', 'stops', 'nobody').map((hears) => ({ kind: 'heard-by', hears }) as const),
    },
    { weight: 1, arbitrary: fc.constant({ kind: 'stopped', by: 'page' } as const) },
    {
      weight: 1,
      arbitrary: fc
        .constantFrom('sound', 'travel', 'server')
        .map((lifeline) => ({ kind: 'signal-lost', lifeline, detail: 'gone' }) as const),
    },
    {
      weight: 3,
      arbitrary: fc.record({
        kind: fc.constant('moved' as const),
        mm: fc.integer({ min: 0, max: 700 }),
        ageMs: fc.integer({ min: 0, max: 1500 }),
      }),
    },
    { weight: 1, arbitrary: fc.constant({ kind: 'tilted', deg: 10 } as const) },
    {
      weight: 1,
      arbitrary: fc.integer({ min: 0, max: 400 }).map((delayMs) => ({ kind: 'heard-after', delayMs }) as const),
    },
    { weight: 1, arbitrary: fc.constant({ kind: 'unheard', call: 'c1' } as const) },
    { weight: 2, arbitrary: fc.constant({ kind: 'woken' } as const) },
  ),
});
const happenings = fc.tuple(fc.boolean(), fc.array(anything, { maxLength: 60 })).map(([isHeard, list]): RunEvent[] => {
  let atMs = 1_000_000;
  return [
    ...(isHeard ? [{ kind: 'heard-by', atMs, hears: 'bevels' } as const] : []),
    { kind: 'started', atMs, withoutSound: !isHeard },
    ...list.map(({ waitMs, what }): RunEvent => {
      atMs += waitMs;
      return { ...what, atMs };
    }),
  ];
});

/** As a live run does it: woken whenever the state asks, in between the events. */
function live(
  events: readonly RunEvent[],
  extraWakes = false,
  setup = smallSetup(),
): { taken: RunEvent[]; effects: RunEffect[]; state: unknown } {
  let state = initialState(setup);
  const taken: RunEvent[] = [];
  const effects: RunEffect[] = [];
  let lastMs = 0;
  const take = (event: RunEvent): void => {
    lastMs = event.atMs;
    const [next, asked] = step(state, event);
    if (asked[0]?.kind !== 'refuse' && (event.kind !== 'woken' || asked.length > 0)) taken.push(event);
    if (asked[0]?.kind === 'refuse') expect(next).toBe(state);
    state = next;
    effects.push(...asked);
  };
  for (const event of events) {
    for (let turns = 0; state.wakeAtMs !== null && state.wakeAtMs < event.atMs && turns < 50; turns += 1) {
      if (extraWakes) take({ kind: 'woken', atMs: Math.max(lastMs, state.wakeAtMs - 1) });
      if (state.wakeAtMs !== null && state.wakeAtMs < event.atMs) take({ kind: 'woken', atMs: state.wakeAtMs });
    }
    take(event);
  }
  return { taken, effects, state };
}

const SETUPS = [smallSetup(), smallSetup({ routine: 'even turning' }), degreeSetup()];

describe('whatever happens in a run', () => {
  it('what was taken folds to the same state again, through text', () => {
    fc.assert(
      fc.property(happenings, (events) => {
        for (const setup of SETUPS) {
          const { taken, state } = live(events, false, setup);
          const read = taken.map((event) => JSON.parse(JSON.stringify(event)) as RunEvent);
          const { wakeAtMs: _a, ...again } = JSON.parse(JSON.stringify(fold(setup, read)));
          const { wakeAtMs: _b, ...once } = JSON.parse(JSON.stringify(state));
          expect(again).toEqual(once);
        }
      }),
      { numRuns: cases(500) },
    );
  });

  it('waking it early or twice changes nothing', () => {
    fc.assert(
      fc.property(happenings, (events) => {
        expect(live(events, true).effects).toEqual(live(events).effects);
      }),
      { numRuns: cases(300) },
    );
  });

  it('never says two things at once, and names only what the plan calls for', () => {
    fc.assert(
      fc.property(happenings, (events) => {
        for (const setup of SETUPS) makesSense(setup, live(events, false, setup).effects);
      }),
      { numRuns: cases(500) },
    );
  });

  it('an order is cut off by nothing but another order, or by nothing at all', () => {
    fc.assert(
      fc.property(happenings, (events) => {
        for (const setup of SETUPS) {
          const { effects } = live(events, false, setup);
          const orders = new Map<string, { readonly endsAtMs: number }>();
          effects.forEach((effect, index) => {
            if (effect.kind === 'say' && isOrder(effect.call.text))
              orders.set(effect.call.id, { endsAtMs: effect.call.startsAtMs + effect.call.durationMs });
            if (effect.kind === 'say' && !isOrder(effect.call.text))
              for (const { endsAtMs } of orders.values())
                expect(effect.call.startsAtMs).toBeGreaterThanOrEqual(endsAtMs);
            if (effect.kind !== 'cut-off' || !orders.has(effect.id)) return;
            orders.delete(effect.id);
            const next = effects.slice(index).find((each) => each.kind === 'say');
            expect(next?.kind === 'say' && isOrder(next.call.text)).toBe(true);
          });
        }
      }),
      { numRuns: cases(300) },
    );
  });

  it("walks through on presses alone exactly as counting on one's fingers does", () => {
    const gestures = fc.array(fc.constantFrom('next', 'next', 'next', 'back', 'again'), { maxLength: 40 });
    fc.assert(
      fc.property(gestures, (list) => {
        const events: RunEvent[] = [
          { kind: 'started', atMs: 0, withoutSound: true },
          ...list.map((gesture, index): RunEvent => ({ kind: 'pressed', gesture, atMs: 1000 * (index + 1) })),
        ];
        const named = live(events).effects.flatMap((effect) =>
          effect.kind === 'say' && effect.call.mark ? [effect.call.mark] : [],
        );
        expect(named).toEqual(onFingers(list));
      }),
      { numRuns: cases(300) },
    );
  });
});

const isOrder = (text: string): boolean => ORDERS.some((name) => phrases[name] === text);

/** The marks named, by the plainest model of the routine. */
function onFingers(list: readonly string[]): number[] {
  let count = 0;
  const named = [1];
  for (const gesture of list) {
    // Behind the last mark the run is over, but a mistaken last press is taken back.
    if (count === 5 && gesture !== 'back') continue;
    if (gesture === 'next') count += 1;
    if (gesture === 'back') {
      if (count === 0) continue;
      count -= 1;
    }
    if (count < 5) named.push(count + 1);
  }
  return named;
}
