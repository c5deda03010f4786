import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assimilateInOrder } from '../../../server/core/track/outOfOrder.ts';
import { placeAt } from '../../../server/core/track/placeAt.ts';
import { type Evidence, startTrack, type Track } from '../../../server/core/track/track.ts';
import { chance, type Truth, wood } from './wood.ts';

const SEEDS = Array.from({ length: 12 }, (_, seed) => seed + 1);
const USUAL = 0.05;

/** How far off the track is just before each look, beside what it says of itself. */
function follow(truths: readonly Truth[], evidence: readonly Evidence[]) {
  let track = startTrack(USUAL);
  const queue = [...evidence];
  return truths.flatMap((truth) => {
    while (queue[0] !== undefined && queue[0].atMs <= truth.atMs) {
      const next = queue.shift();
      if (next !== undefined) track = assimilateInOrder(track, next).track;
    }
    const place = placeAt(track, truth.atMs);
    return place === null ? [] : [{ truth, place, offMm: place.positionMm - truth.positionMm }];
  });
}
const share = <T>(list: readonly T[], of: (each: T) => boolean): number => list.filter(of).length / list.length;

function camera(truths: readonly Truth[], seed: number): Evidence[] {
  const { normal } = chance(seed);
  const readings = truths.filter((_, index) => index % 7 === 0);
  return readings.map(({ atMs, positionMm }) => ({ kind: 'fix', by: 'scan', atMs, positionMm: positionMm + normal() }));
}

/** A wheel with half a percent of slip, and hand-scanned marks, some missed and some false. */
function wheelAndMarks(truths: readonly Truth[], seed: number): Evidence[] {
  const { next, normal } = chance(seed);
  const slip = 1 - 0.005;
  const evidence: Evidence[] = [];
  let mark = 0;
  for (const [index, { atMs, positionMm }] of truths.entries()) {
    if (index % 2 === 0)
      evidence.push({ kind: 'count', atMs, mm: Math.round((4321 + slip * positionMm + 0.1 * normal()) * 10) / 10 });
    if (positionMm >= 150 * mark) {
      if (next() >= 0.02) evidence.push({ kind: 'fix', by: 'scan', atMs, positionMm: 150 * mark + normal() });
      mark += 1;
    }
    // One false reading for every hundred marks or so.
    if (next() < 0.01 / 300)
      evidence.push({ kind: 'fix', by: 'scan', atMs, positionMm: 150 * Math.floor(12 * next()) });
  }
  return evidence;
}

describe('what the track knows, the truth being known', () => {
  it('camera-like readings of 1 mm at 15 Hz: within 2 mm for 99 % of the time, speed within 5 % in steady feed', () => {
    const looks = SEEDS.flatMap((seed) => {
      const truths = wood({ seed, lengthMm: 1800, everyMs: 10, pauses: [{ fromMm: 900, forMs: 3000 }] });
      return follow(truths, camera(truths, seed)).slice(150);
    });
    expect(share(looks, ({ offMm }) => Math.abs(offMm) <= 2)).toBeGreaterThan(0.99);
    const steady = looks.filter(({ truth }) => truth.isSteady);
    const isNear = ({ truth, place }: (typeof looks)[number]): boolean =>
      Math.abs(place.speedMmPerMs / truth.speedMmPerMs - 1) <= 0.05;
    expect(share(steady, isNear)).toBeGreaterThan(0.95);
  });

  it('a wheel and marks (0.5 % slip, 2 % missed, 1 % false): within 5 mm', () => {
    const looks = SEEDS.flatMap((seed) => {
      const truths = wood({ seed, lengthMm: 1800, everyMs: 10, pauses: [{ fromMm: 700, forMs: 4000 }] });
      return follow(truths, wheelAndMarks(truths, seed));
    });
    expect(Math.max(...looks.map(({ offMm }) => Math.abs(offMm)))).toBeLessThan(5);
  });

  it('a pedal alone: the truth lies inside two standard deviations at least 93 % of the time, and they say something', () => {
    const looks = Array.from({ length: 60 }, (_, seed) => seed).flatMap((seed) => {
      const { normal } = chance(seed);
      const truths = wood({ seed, lengthMm: 1800, everyMs: 10, pauses: [{ fromMm: 640, forMs: 5000 }] });
      const presses: Evidence[] = [];
      for (let mark = 0; mark * 150 < 1800; mark += 1) {
        const truth = truths.find(({ positionMm }) => positionMm >= mark * 150);
        const lateMs = 100 * normal();
        if (truth !== undefined)
          presses.push({ kind: 'fix', by: 'press', atMs: Math.max(0, truth.atMs + lateMs), positionMm: mark * 150 });
      }
      const stopAt = truths.find(({ positionMm }) => positionMm >= 640)?.atMs ?? 0;
      const told: Evidence[] = [
        { kind: 'standing', atMs: stopAt },
        { kind: 'moving', atMs: stopAt + 5000 },
      ];
      const inOrder = [...presses, ...told].sort((a, b) => a.atMs - b.atMs);
      return follow(truths, inOrder);
    });
    expect(share(looks, ({ offMm, place }) => Math.abs(offMm) <= 2 * place.sdMm)).toBeGreaterThan(0.93);
    const width = looks.reduce((sum, { place }) => sum + 2 * place.sdMm, 0) / looks.length;
    // Half the marks' spacing would say nothing at all.
    expect(width).toBeLessThan(40);
  });

  it('is neither over- nor under-confident: the squared errors in its own units average about 1', () => {
    const squares = SEEDS.flatMap((seed) => {
      const truths = wood({ seed, lengthMm: 1800, everyMs: 10 });
      return follow(truths, camera(truths, seed))
        .slice(150)
        .map(({ offMm, place }) => (offMm / place.sdMm) ** 2);
    });
    const mean = squares.reduce((a, b) => a + b, 0) / squares.length;
    // A chi-squared of one degree of freedom has mean 1; the looks depend on each other, so the bounds are wide.
    expect(mean).toBeGreaterThan(0.5);
    expect(mean).toBeLessThan(1.6);
  });
});

describe('the track', () => {
  const run = (list: readonly Evidence[]): Track =>
    list.reduce((track, each) => assimilateInOrder(track, each).track, startTrack(USUAL));
  const truths = wood({ seed: 3, lengthMm: 600, everyMs: 10 });

  it('puts late readings in their place', () => {
    const ordered = wheelAndMarks(truths, 3);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 20, maxLength: 20 }), (delays) => {
        // Each arrives up to 0.3 s after its time, so that they overtake one another.
        const arriving = ordered
          .map((each, index) => ({ each, at: each.atMs + (index < 40 ? 0 : (delays[index % 20] ?? 0)) }))
          .sort((a, b) => a.at - b.at)
          .map(({ each }) => each);
        const a = placeAt(run(ordered), 20_000);
        const b = placeAt(run(arriving), 20_000);
        expect(b?.positionMm).toBeCloseTo(a?.positionMm ?? Number.NaN, 6);
        expect(b?.sdMm).toBeCloseTo(a?.sdMm ?? Number.NaN, 6);
      }),
      { numRuns: 20 },
    );
  });

  it('does not believe one mark that cannot be, but three that agree', () => {
    const known = run(wheelAndMarks(truths, 3));
    const atMs = truths.at(-1)?.atMs ?? 0;
    const off = (after: number): Evidence => ({
      kind: 'fix',
      by: 'scan',
      atMs: atMs + after,
      positionMm: 1200 + 0.05 * after,
    });
    const once = assimilateInOrder(known, off(10));
    expect(once.verdict).toBe('false');
    const twice = assimilateInOrder(once.track, off(400));
    const thrice = assimilateInOrder(twice.track, off(800));
    expect([twice.verdict, thrice.verdict]).toEqual(['false', 'taken']);
    expect(placeAt(thrice.track, atMs + 800)?.positionMm).toBeCloseTo(1240, 0);
  });

  it('is the same through JSON, and carrying on in two steps changes nothing', () => {
    const track = run(camera(truths, 5));
    const atMs = truths.at(-1)?.atMs ?? 0;
    expect(placeAt(JSON.parse(JSON.stringify(track)), atMs + 500)).toEqual(placeAt(track, atMs + 500));
    const twice = assimilateInOrder(assimilateInOrder(track, { kind: 'moving', atMs: atMs + 200 }).track, {
      kind: 'moving',
      atMs: atMs + 200,
    });
    expect(twice.verdict).toBe('taken');
  });

  it('keeps little: a second of evidence', () => {
    const long = wood({ seed: 9, lengthMm: 1800, everyMs: 10 });
    expect(JSON.stringify(run(wheelAndMarks(long, 9))).length).toBeLessThan(8000);
  });

  it('carries on past a count that begins anew', () => {
    const known = run(wheelAndMarks(truths, 3));
    const atMs = truths.at(-1)?.atMs ?? 0;
    const { track, verdict } = assimilateInOrder(known, { kind: 'count', atMs: atMs + 20, mm: 2 });
    expect(verdict).toBe('restarted');
    expect(placeAt(track, atMs + 20)?.positionMm).toBeCloseTo(placeAt(known, atMs + 20)?.positionMm ?? 0, 6);
  });
});
