/** What one piece of evidence makes of what is known, worked by hand. The usual feed is 50 mm/s. */
import { describe, expect, test } from 'vitest';
import { assimilate } from '../../../server/core/track/assimilate.ts';
import type { Evidence, Known } from '../../../server/core/track/track.ts';
import { expectClose } from '../../kit/close.ts';

const USUAL = 0.05;
const worked = (known: Known | null, evidence: Evidence) => {
  const { known: now, verdict } = assimilate(known, evidence, USUAL);
  if (now === null) throw new Error('nothing is known');
  return { now, verdict };
};
const knownFrom = (...list: readonly Evidence[]): Known => {
  let known: Known | null = null;
  for (const each of list) known = worked(known, each).now;
  if (known === null) throw new Error('no evidence');
  return known;
};
const fix = (atMs: number, positionMm: number, by: 'scan' | 'press' = 'scan'): Evidence => ({
  kind: 'fix',
  by,
  atMs,
  positionMm,
});
const count = (atMs: number, mm: number): Evidence => ({ kind: 'count', atMs, mm });
/** From `fromMs` on each 50 ms; the wood stands at `fromMm` of the count and goes at so many mm/ms. */
const counts = (fromMs: number, toMs: number, fromMm: number, mmPerMs: number): Evidence[] =>
  Array.from({ length: (toMs - fromMs) / 50 + 1 }, (_, i) => count(fromMs + 50 * i, fromMm + 50 * i * mmPerMs));

describe('the first evidence', () => {
  test('a mark that is read is its place within a millimetre, at the usual feed give or take half', () => {
    const { belief, cruiseMmPerMs, isStanding } = knownFrom(fix(1000, 150));
    expect(belief).toEqual({ atMs: 1000, mean: [150, USUAL, 0], cov: [1, 0, 0, 0, 0.025 ** 2, 0, 0, 0, 0] });
    expect({ cruiseMmPerMs, isStanding }).toEqual({ cruiseMmPerMs: USUAL, isStanding: false });
  });

  test('a press is so within a tenth of a second of the usual feed too: 5 mm', () => {
    expectClose(knownFrom(fix(1000, 150, 'press')).belief.cov[0], 1 + 25, 1e-9, 'mm2');
  });

  test('a count is position 0 by agreement; a mark that speaks then is believed over it', () => {
    const started = knownFrom(count(1000, 4321));
    expect(started.belief.mean[0]).toBe(0);
    expect(started.fix).toBeNull();
    const placed = worked(started, fix(1000, 700)).now;
    expectClose(placed.belief.mean[0], 700, 0.01, 'mm');
  });

  test('that the wood stands or moves tells nothing before its place is known', () => {
    for (const kind of ['standing', 'moving'] as const)
      expect(assimilate(null, { kind, atMs: 1000 }, USUAL)).toEqual({ known: null, verdict: 'taken' });
  });
});

describe('a stop', () => {
  const going = knownFrom(fix(1000, 0), ...counts(1000, 3000, 0, 0.04));
  const stood = worked(going, { kind: 'standing', atMs: 3000 }).now;

  test('leaves the place, and no speed; it runs on by a quarter of a second, give or take', () => {
    expect(stood.isStanding).toBe(true);
    expect(stood.belief.mean[0]).toBe(going.belief.mean[0]);
    expect(stood.belief.mean[1]).toBe(0);
    const runOnMm = 250 * going.belief.mean[1];
    expectClose(stood.belief.cov[0], going.belief.cov[0] + runOnMm ** 2, 1e-9, 'mm2');
    expect(stood.belief.cov.slice(3, 6)).toEqual([0, 0, 0]);
    expect([stood.belief.cov[1], stood.belief.cov[7]]).toEqual([0, 0]);
  });

  test('keeps what the place and the count’s zero know of each other', () => {
    const { cov } = going.belief;
    expect(stood.belief.mean[2]).toBe(going.belief.mean[2]);
    expect([stood.belief.cov[2], stood.belief.cov[6], stood.belief.cov[8]]).toEqual([cov[2], cov[6], cov[8]]);
  });

  test('what moves in it is no feed: the old one is taken up again, give or take a quarter', () => {
    expectClose(going.cruiseMmPerMs, 0.04, 5e-4, 'mm/ms');
    const shifted = worked(stood, count(4000, 82)).now;
    expect(shifted.cruiseMmPerMs).toBe(going.cruiseMmPerMs);
    const on = worked(shifted, { kind: 'moving', atMs: 5000 }).now;
    expect(on.isStanding).toBe(false);
    expect(on.belief.mean[1]).toBe(going.cruiseMmPerMs);
    expectClose(on.belief.cov[4], (0.25 * going.cruiseMmPerMs) ** 2, 1e-12, 'variance of the speed');
  });
});

describe('a count', () => {
  const going = knownFrom(fix(1000, 0), ...counts(1000, 3000, 0, 0.04));

  test('tells the feed, which is kept for after a stop; wood that is pulled back leaves none', () => {
    expectClose(going.belief.mean[1], 0.04, 5e-4, 'mm/ms');
    const back = knownFrom(fix(1000, 0), ...counts(1000, 3000, 0, 0.04), ...counts(3050, 4000, 78, -0.02));
    expect(back.belief.mean[1]).toBeLessThan(0);
    expect(back.cruiseMmPerMs).toBe(0);
  });

  test.each([
    ['falls by more than 100 mm', -100.1, 'restarted'],
    ['falls by no more', -99.9, 'taken'],
    ['leaps by more than a metre and half a metre a second', 1000 + 25 + 0.1, 'restarted'],
    ['leaps by no more', 1000 + 25 - 0.1, 'taken'],
  ] as const)('that %s', (_, riseMm, verdict) => {
    const found = worked(going, count(3050, 80 + riseMm));
    expect(found.verdict).toBe(verdict);
    if (verdict === 'restarted') expectClose(found.now.belief.mean[0], 82, 0.1, 'mm');
  });

  test('tells how often it speaks: the first gap, then a fifth of each new one', () => {
    const everyMs = (...list: readonly Evidence[]) => knownFrom(...list).count?.everyMs;
    expect(everyMs(count(0, 0))).toBeNull();
    expect(everyMs(count(0, 0), count(100, 5))).toBe(100);
    expect(everyMs(count(0, 0), count(100, 5), count(300, 15))).toBe(120);
  });
});

describe('a mark that is read where the wood cannot be', () => {
  const placed = knownFrom(fix(1000, 0), ...counts(1000, 3000, 0, 0.04));

  test('is false by a count that was placed, and right once three agree', () => {
    const at = (ms: number, mm: number): Evidence => fix(3000 + ms, 80 + mm);
    expect(worked(placed, at(0, 19)).verdict).toBe('taken');
    const once = worked(placed, at(0, 500));
    expect(once.verdict).toBe('false');
    expect(once.now.belief).toBe(placed.belief);
    const twice = worked(once.now, at(200, 508));
    expect(twice.verdict).toBe('false');
    expect(worked(twice.now, at(400, 516)).verdict).toBe('taken');
    // The third lies 60 mm off the other two: it counts as the first again.
    const stray = worked(twice.now, at(400, 576));
    expect(stray.verdict).toBe('false');
    expect(stray.now.refused).toHaveLength(1);
  });

  test('a person’s foot is believed, and so is a mark where no count looks or none was placed', () => {
    expect(worked(placed, fix(3000, 580, 'press')).verdict).toBe('taken');
    expect(worked(knownFrom(fix(1000, 0), fix(4000, 150)), fix(5000, 600)).verdict).toBe('taken');
    expect(worked(knownFrom(...counts(1000, 3000, 0, 0.04)), fix(3000, 580)).verdict).toBe('taken');
    expect(worked(placed, fix(4001, 580)).verdict).toBe('taken');
    expect(worked(placed, fix(3999, 580)).verdict).toBe('false');
  });

  test('that is believed moves the place and the count’s zero together, and leaves the speed', () => {
    const { belief } = worked(placed, fix(3000, 580, 'press')).now;
    expectClose(belief.mean[0], 580, 1, 'mm');
    expectClose(belief.mean[2] - placed.belief.mean[2], belief.mean[0] - placed.belief.mean[0], 1, 'mm');
    expectClose(belief.mean[1], placed.belief.mean[1], 1e-3, 'mm/ms');
  });
});

test('marks alone never say that the wood goes backward', () => {
  const { belief, cruiseMmPerMs } = knownFrom(fix(1000, 300), fix(2000, 0));
  expect(belief.mean[1]).toBeGreaterThanOrEqual(0);
  expect(cruiseMmPerMs).toBeGreaterThanOrEqual(0);
});
