import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RunEffect, RunEvent } from '../../../server/core/run/engine/events.ts';
import { initialState } from '../../../server/core/run/engine/initialState.ts';
import type { RunSetup, RunState } from '../../../server/core/run/engine/state.ts';
import { makeSetup } from '../../../server/core/run/makeSetup.ts';
import { believableFeed, ceilingOf } from '../../../server/core/run/place/believableFeed.ts';
import { step } from '../../../server/core/run/step.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { press, refusals, scan, started } from '../../kit/playRun.ts';
import { degreeSetup, smallSetup } from '../../kit/runSetup.ts';

/** Marks at these places, at any feed up to this. */
function setupAt(positionsMm: readonly number[], fastestMPerMin = 3, overrides: Partial<RunSetup> = {}): RunSetup {
  const stations = positionsMm.map((positionMm, i) => ({ mark: i + 1, positionMm, tiltDeg: 8 + i, callDeg: 8 + i }));
  const callTexts = stations.map(({ callDeg }) => `bevel ${callDeg}`);
  return smallSetup({
    stations,
    callTexts,
    profile: { positionsMm, tiltsDeg: stations.map(({ tiltDeg }) => tiltDeg) },
    fastestMPerMin,
    ...overrides,
  });
}

function playOn(setup: RunSetup, events: readonly RunEvent[]): { state: RunState; last: readonly RunEffect[] } {
  let state = initialState(setup);
  let last: readonly RunEffect[] = [];
  for (const event of events) [state, last] = step(state, event);
  return { state, last };
}

const small = setupAt([0, 150, 300, 450, 600]);

describe('a hasty press', () => {
  it('is refused a quarter of a second after the one before, 150 mm on, and leaves the very same state', () => {
    const { state } = playOn(small, [started(), press(5000)]);
    const [after, effects] = step(state, press(5250));
    expect(after).toBe(state);
    expect(effects).toMatchObject([{ kind: 'refuse', code: 'too-soon', mark: 2 }]);
    // The words of mark 2 are still being said.
    expect(state.speaking).toMatchObject({ mark: 2, startsAtMs: 5000 });
  });

  it('does not hinder the next true press', () => {
    const { state, last } = playOn(small, [started(), press(5000), press(5250), press(8000)]);
    expect(state.reached).toBe(2);
    expect(last.map(({ kind }) => kind)).toEqual(['say']);
  });

  it('is refused however long nobody had pressed before it', () => {
    expect(refusals(playOn(small, [started(), press(5000), press(60_000), press(60_250)]).last)).toEqual(['too-soon']);
  });

  it('is believed where it comes first, for nothing tells how far the wood was', () => {
    expect(refusals(playOn(small, [started(), press(100)]).last)).toEqual([]);
  });

  it('is believed after a press that was late by two seconds', () => {
    expect(refusals(playOn(small, [started(), press(5000), press(10_000), press(11_000)]).last)).toEqual([]);
  });

  it('may be made again after it was taken back', () => {
    const { state, last } = playOn(small, [started(), press(5000), press(6500), press(7000, 'back'), press(8000)]);
    expect(refusals(last)).toEqual([]);
    expect(state.reached).toBe(2);
    expect(refusals(step(state, press(8200))[1])).toEqual(['too-soon']);
  });

  it('is refused after a resume too', () => {
    const on: RunEvent = { kind: 'resumed', atMs: 9000 };
    const events = [started(), press(5000), press(6000, 'stop'), on, press(9500)];
    expect(refusals(playOn(small, events).last)).toEqual([]);
    expect(refusals(playOn(small, [...events, press(9700)]).last)).toEqual(['too-soon']);
  });

  it('is believed once a person has said where the wood stands after damage, for nothing else is known', () => {
    const damaged = [started(), press(5000), press(8000), { kind: 'damaged', atMs: 8500, fromLine: 3, toLine: 3 }];
    const placed = [...damaged, { kind: 'placed', atMs: 8800, mark: 4 }, { kind: 'resumed', atMs: 9000 }];
    expect(refusals(playOn(small, [...(placed as RunEvent[]), press(9500)]).last)).toEqual([]);
  });

  it('in a run of before is taken, so that its record reads as it was', () => {
    expect(refusals(playOn(smallSetup(), [started(), press(5000), press(5250)]).last)).toEqual([]);
  });

  it('is refused in every routine', () => {
    const degrees = degreeSetup({ fastestMPerMin: 3 });
    expect(refusals(playOn(degrees, [started(), press(5000), press(5250)]).last)).toEqual(['too-soon']);
  });
});

describe('a mark that is read', () => {
  it('is refused where the wood cannot have come so far', () => {
    expect(refusals(playOn(small, [started(), scan(5000, 1), scan(5250, 2)]).last)).toEqual(['too-soon']);
    expect(refusals(playOn(small, [started(), scan(5000, 1), scan(5500, 4)]).last)).toEqual(['too-soon']);
  });

  it('is taken where marks between were not read, and where one was read twice', () => {
    expect(refusals(playOn(small, [started(), scan(5000, 1), scan(14_000, 4)]).last)).toEqual([]);
    const twice = playOn(small, [started(), scan(5000, 1), scan(5100, 1)]);
    expect(twice.last).toMatchObject([{ kind: 'tell', notice: { code: 'mark-doubled' } }]);
  });

  it('is taken from a reader that sees two marks at once, each with its offset', () => {
    const events = [started(), scan(5000, 1, 40), scan(5000, 2, -110)];
    expect(refusals(playOn(small, events).last)).toEqual([]);
  });

  it('and a press beside it are held against each other', () => {
    expect(refusals(playOn(small, [started(), scan(5000, 1), press(5200)]).last)).toEqual(['too-soon']);
  });
});

describe('with a count of travel', () => {
  const count = (fromMs: number, toMs: number, fromMm: number, mmPerMs = 0.05): RunEvent[] =>
    Array.from({ length: Math.floor((toMs - fromMs) / 40) + 1 }, (_, i) => ({
      kind: 'moved',
      atMs: fromMs + 40 * i,
      mm: fromMm + 40 * i * mmPerMs,
    }));

  it('a second press in the first half of the way is refused, though the ceiling would allow it', () => {
    const placed = [started(), ...count(4000, 5000, 0), press(5010), ...count(5040, 6000, 52)];
    expect(refusals(playOn(small, [...placed, press(6010)]).last)).toEqual(['too-soon']);
  });

  it('a press near its mark puts the count right, and one at a mark that was counted confirms it', () => {
    const placed = [started(), ...count(4000, 5000, 0), press(5010), ...count(5040, 7600, 52)];
    expect(refusals(playOn(small, [...placed, press(7610)]).last)).toEqual([]);
    const passed = [...placed, ...count(7640, 8600, 182)];
    const { state, last } = playOn(small, [...passed, press(8610)]);
    expect(refusals(last)).toEqual([]);
    expect(state.reached).toBe(2);
  });

  it('a press in the second half of the way is believed', () => {
    const placed = [started(), ...count(4000, 5000, 0), press(5010), ...count(5040, 6880, 52)];
    expect(refusals(playOn(small, [...placed, press(6900)]).last)).toEqual([]);
  });

  it('a count that has fallen silent refuses nothing', () => {
    const slow = [started(), ...count(4000, 5000, 0, 0.02), press(5010), ...count(5040, 6000, 21, 0.02)];
    expect(refusals(playOn(small, [...slow, press(6700)]).last)).toEqual([]);
    expect(refusals(playOn(small, [...slow, ...count(6040, 6680, 41, 0.02), press(6700)]).last)).toEqual(['too-soon']);
  });

  it('where marks are close a foot may be early by its error, though that is more than half of the way', () => {
    const close = setupAt([0, 20, 40, 60]);
    const placed = [started(), ...count(4000, 5000, 0, 0.005), press(5010), ...count(5040, 5120, 7)];
    expect(refusals(playOn(close, [...placed, press(5130)]).last)).toEqual([]);
  });

  it('a foot is believed again after a stop, for the count may be what is wrong', () => {
    const on: RunEvent = { kind: 'resumed', atMs: 9000 };
    const placed = [started(), ...count(4000, 5000, 0), press(5010), ...count(5040, 6000, 52)];
    const resumed = [...placed, press(6100, 'stop'), on, ...count(9040, 9400, 100)];
    expect(refusals(playOn(small, [...resumed, press(9410)]).last)).toEqual([]);
  });
});

/** Marks from close to far, and a feed that the crew says or the plan allows. */
const jobs = fc.record({
  gapsMm: fc.array(fc.integer({ min: 15, max: 700 }), { minLength: 3, maxLength: 12 }),
  fastestMPerMin: fc.double({ min: 0.5, max: 40, noNaN: true }),
});
function placesOf(gapsMm: readonly number[]): readonly number[] {
  const places = [0];
  for (const gapMm of gapsMm) places.push((places.at(-1) ?? 0) + gapMm);
  return places;
}

describe('whatever is pressed', () => {
  const gestures = fc.array(
    fc.record({
      waitMs: fc.oneof(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 5000 })),
      gesture: fc.constantFrom('next', 'next', 'next', 'next', 'back', 'again', 'stop', 'resume'),
    }),
    { maxLength: 80 },
  );

  it('takes a run along no faster than the ceiling, and a foot’s error once', () => {
    fc.assert(
      fc.property(jobs, gestures, ({ gapsMm, fastestMPerMin }, list) => {
        const setup = setupAt(placesOf(gapsMm), fastestMPerMin);
        const ceiling = ceilingOf(setup);
        if (ceiling === null) throw new Error('no ceiling');
        let [state] = step(initialState(setup), started());
        let atMs = 0;
        /** The marks that stand, with the moment at which each was taken. */
        let stand: { mm: number; atMs: number }[] = [];
        for (const { waitMs, gesture } of list) {
          atMs += waitMs;
          [state] = step(state, gesture === 'resume' ? { kind: 'resumed', atMs } : press(atMs, gesture));
          if (state.reached < stand.length) stand = stand.slice(0, state.reached);
          if (state.reached > stand.length)
            stand.push({ mm: setup.stations[state.reached - 1]?.positionMm ?? Number.NaN, atMs });
          const now = stand.at(-1);
          for (const before of stand) {
            const mostMm = ceiling.mmPerMs * ((now?.atMs ?? 0) - before.atMs) + ceiling.slackMm;
            expect((now?.mm ?? 0) - before.mm).toBeLessThanOrEqual(mostMm + 1e-6);
          }
        }
      }),
      { numRuns: 1000 },
    );
  });
});

describe('a foot that presses at its marks', () => {
  /** Late or early by up to three times its tenth of a second. */
  const offMs = fc.integer({ min: -300, max: 300 });
  const deeds = fc.array(fc.record({ offMs, what: fc.constantFrom('', '', '', 'stop', 'again', 'back') }), {
    minLength: 20,
    maxLength: 20,
  });

  it('is never refused, at any feed that is believed, after stops, resumes and presses taken back', () => {
    let presses = 0;
    fc.assert(
      fc.property(
        jobs,
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        deeds,
        ({ gapsMm, fastestMPerMin }, share, list) => {
          const setup = setupAt(placesOf(gapsMm), fastestMPerMin);
          const feed = (share * fastestMPerMin) / 60;
          let [state, effects] = step(initialState(setup), started());
          let lastMs = 0;
          let stoodMs = 0;
          const take = (event: RunEvent): void => {
            [state, effects] = step(state, event);
            expect(refusals(effects)).toEqual([]);
            lastMs = event.atMs;
          };
          for (const [index, { positionMm }] of setup.stations.entries()) {
            const { offMs: errorMs, what } = list[index] ?? { offMs: 0, what: '' };
            // Nobody is early at the first mark, which waits at the blade, and no two presses come at one moment.
            const trueMs = 5000 + positionMm / feed + stoodMs;
            const atMs = Math.max(lastMs, trueMs + (index === 0 ? Math.abs(errorMs) : errorMs));
            take(press(atMs));
            presses += 1;
            if (state.phase === 'finished') return;
            if (what === 'again') take(press(atMs, 'again'));
            if (what === 'back') {
              take(press(atMs, 'back'));
              take(press(atMs));
            }
            if (what === 'stop') {
              take(press(atMs, 'stop'));
              take({ kind: 'resumed', atMs: atMs + 3000 });
              stoodMs += 3000;
            }
          }
        },
      ),
      { numRuns: 1000 },
    );
    expect(presses).toBeGreaterThan(5000);
  });
});

describe('the ceiling', () => {
  it('stands clear of the crew’s feed and of what the plan allows, and has a floor and a top', async () => {
    const plan = await demoPlan();
    const fastest = believableFeed(plan);
    expect(fastest).toBeGreaterThanOrEqual(plan.crew.feedMPerMin);
    expect(makeSetup(plan, 'pair', {}).fastestMPerMin).toBe(fastest);
    const mPerMin = (fastestMPerMin: number): number => (ceilingOf(setupAt([0, 1], fastestMPerMin))?.mmPerMs ?? 0) * 60;
    expect(mPerMin(0.5)).toBeCloseTo(12);
    expect(mPerMin(20)).toBeCloseTo(30);
    expect(mPerMin(100)).toBeCloseTo(60);
    // What feet do wrong is of the feed that is believed, not of the ceiling.
    const slackMm = (fastestMPerMin: number): number => ceilingOf(setupAt([0, 1], fastestMPerMin))?.slackMm ?? 0;
    expect([slackMm(0.5), slackMm(20), slackMm(100)].map((mm) => Math.round(mm))).toEqual([5, 200, 400]);
  });

  it('goes by the fastest place of the plan, but by none that no hand feeds at', async () => {
    const plan = await demoPlan();
    const [interval] = plan.pace.intervals;
    if (interval === undefined) throw new Error('no interval');
    const fastestOf = (...limits: readonly number[]): number => {
      const intervals = limits.map((limitMPerMin) => ({ ...interval, limitMPerMin }));
      return believableFeed({ crew: { ...plan.crew, feedMPerMin: 2 }, pace: { ...plan.pace, intervals } });
    };
    expect(fastestOf(3, 9)).toBe(9);
    expect(fastestOf(3, 100)).toBe(20);
    expect(fastestOf(1)).toBe(2);
  });
});
