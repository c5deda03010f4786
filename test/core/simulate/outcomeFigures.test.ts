import { describe, expect, it } from 'vitest';
import { CHOICES } from '../../../server/core/simulate/choices.ts';
import { type RunFigures, summed } from '../../../server/core/simulate/outcomeFigures.ts';
import type { SomeRuns } from '../../../server/core/simulate/someRuns.ts';
import { simulateRuns } from '../../../server/workers/simulateRuns.ts';
import { demoPlan } from '../../kit/demoPlan.ts';

const figures = (rmsDeg: number, missed: Record<string, number> = {}): RunFigures => ({
  rmsDeg,
  worstDeg: 3 * rmsDeg,
  worstGapMm: 2 * rmsDeg,
  durationS: 60,
  lateCalls: 1,
  missed,
});

describe('the figures of many runs', () => {
  it('are summed up: over all, and under what half, 95 in 100 and all of them stay', () => {
    const sum = summed(Array.from({ length: 100 }, (_, index) => figures((index + 1) / 100)));
    expect(sum.spread.rmsDeg).toEqual({ half: 0.5, most: 0.95, all: 1 });
    expect(sum.spread.worstDeg.all).toBe(3);
    expect([sum.worstDeg, sum.worstGapMm, sum.durationS, sum.lateCalls]).toEqual([3, 2, 60, 100]);
    // Derived: the sum of the first n squares is n (n + 1) (2n + 1) / 6.
    expect(sum.rmsDeg).toBeCloseTo(Math.sqrt((101 * 201) / 6 / 1e4), 12);
  });

  it('tell what was missed, oftenest first', () => {
    const sum = summed([figures(1, { late: 1, unread: 1 }), figures(1), figures(1, { unread: 4 })]);
    expect(sum.missedCalls).toBe(6);
    expect(sum.missed).toEqual([
      { reason: 'unread', marks: 5, runs: 2 },
      { reason: 'late', marks: 1, runs: 1 },
    ]);
  });

  it('are the same on one thread and on two, in the order of the seeds, and told of as they come', async () => {
    const plan = await demoPlan();
    const asked = ['even turning', 'mark by mark on the pedal'].flatMap((name): SomeRuns[] => {
      const choice = CHOICES[name];
      return choice === undefined ? [] : [{ choice, mPerMin: 3, fromSeed: 5, runs: 110 }];
    });
    let done = 0;
    const one = await simulateRuns(plan, asked, { threads: 1 });
    const two = await simulateRuns(plan, asked, { threads: 2, onDone: (runs) => (done += runs) });
    expect(two).toEqual(one);
    expect(done).toBe(220);
    // So few that no thread is started for them.
    const few = await simulateRuns(
      plan,
      asked.map((some) => ({ ...some, fromSeed: 64, runs: 3 })),
    );
    expect(few).toEqual(one.map((list) => list.slice(59, 62)));
  });
});
