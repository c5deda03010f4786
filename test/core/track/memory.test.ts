/** What a track remembers, and that neither lateness, nor JSON, nor abuse harms it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carryOn } from '../../../server/core/track/kalman.ts';
import { assimilateInOrder, REMEMBERED } from '../../../server/core/track/outOfOrder.ts';
import { placeAt } from '../../../server/core/track/placeAt.ts';
import { beliefAt } from '../../../server/core/track/predict.ts';
import { type Evidence, startTrack, type Track } from '../../../server/core/track/track.ts';
import { expectClose } from '../../kit/close.ts';
import { plainMemory, weighPlainly } from './plainMemory.ts';
import { camera, pedal, wheelAndMarks } from './sources.ts';
import { chance, wood } from './wood.ts';

const USUAL = 0.05;
const run = (list: readonly Evidence[]): Track =>
  list.reduce((track, each) => assimilateInOrder(track, each).track, startTrack(USUAL));
const pauses = [{ fromMm: 300, forMs: 2000 }];
const truths = wood({ seed: 21, lengthMm: 600, everyMs: 10, pauses });

describe('what a track remembers', () => {
  it('readings that come up to 0.95 s late, in any order, leave the place that they leave in order', () => {
    for (let seed = 1; seed <= 12; seed += 1) {
      const { next } = chance(seed);
      const ordered = wheelAndMarks(truths, seed, 0.005);
      const arriving = ordered
        .map((each, index) => ({ each, at: each.atMs + (index < 2 ? 0 : 950 * next()) }))
        .sort((a, b) => a.at - b.at)
        .map(({ each }) => each);
      let track = startTrack(USUAL);
      for (const each of arriving) {
        const weighed = assimilateInOrder(track, each);
        expect(weighed.verdict).not.toBe('too-late');
        track = weighed.track;
      }
      const [a, b] = [placeAt(run(ordered), 30_000), placeAt(track, 30_000)];
      expectClose(b?.positionMm ?? Number.NaN, a?.positionMm ?? Number.NaN, 1e-6, 'place');
      expectClose(b?.sdMm ?? Number.NaN, a?.sdMm ?? Number.NaN, 1e-6, 'doubt');
    }
  });

  it('a reading older than that is not taken, and changes nothing', () => {
    const track = run(wheelAndMarks(truths, 1, 0));
    const atMs = (truths.at(-1)?.atMs ?? 0) - 2000;
    expect(assimilateInOrder(track, { kind: 'fix', by: 'scan', atMs, positionMm: 0 })).toEqual({
      track,
      verdict: 'too-late',
    });
  });

  it('is what it would be if everything were reckoned anew at each reading, in whatever order they come', () => {
    const gapMs = fc.oneof(
      { weight: 6, arbitrary: fc.integer({ min: 0, max: 90 }) },
      { weight: 3, arbitrary: fc.integer({ min: -1300, max: 0 }) },
      { weight: 1, arbitrary: fc.integer({ min: 0, max: 3000 }) },
    );
    const said = fc.oneof(
      {
        weight: 8,
        arbitrary: fc.record({ kind: fc.constant('count' as const), mm: fc.integer({ min: 0, max: 300 }) }),
      },
      {
        weight: 3,
        arbitrary: fc.record({
          kind: fc.constant('fix' as const),
          by: fc.constantFrom('scan' as const, 'press' as const),
          positionMm: fc.integer({ min: 0, max: 300 }),
        }),
      },
      { weight: 1, arbitrary: fc.record({ kind: fc.constantFrom('standing' as const, 'moving' as const) }) },
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(gapMs, said), { minLength: 1, maxLength: 120 }), (list) => {
        let atMs = 5000;
        let track = startTrack(USUAL);
        let plain = plainMemory;
        for (const [gap, each] of list) {
          // A late one comes between the others and does not turn time back.
          const evidence = { ...each, atMs: atMs + gap };
          atMs = Math.max(atMs, evidence.atMs);
          const weighed = assimilateInOrder(track, evidence);
          const wanted = weighPlainly(plain, evidence, USUAL);
          expect(weighed.verdict).toBe(wanted.verdict);
          expect(weighed.track.now).toEqual(wanted.memory.now);
          track = weighed.track;
          plain = wanted.memory;
        }
      }),
      { numRuns: 300 },
    );
  });

  it('leaves the track that it was given as it was', () => {
    const track = run(wheelAndMarks(truths, 1, 0));
    const text = JSON.stringify(track);
    const atMs = truths.at(-1)?.atMs ?? 0;
    for (const late of [0, 40, 400]) assimilateInOrder(track, { kind: 'count', atMs: atMs + 40 - late, mm: 4321 });
    expect(JSON.stringify(track)).toBe(text);
  });

  it('is bounded, however fast a source speaks', () => {
    let track = startTrack(USUAL);
    for (let index = 0; index < 2000; index += 1)
      track = assimilateInOrder(track, { kind: 'count', atMs: index / 5, mm: index / 100 }).track;
    const { older, forgotten, newer } = track;
    expect(older.evidence.length - forgotten + newer.evidence.length).toBe(REMEMBERED);
    expect(older.evidence.length).toBeLessThanOrEqual(REMEMBERED);
    expect(JSON.stringify(track).length).toBeLessThan(24_000);
  });

  it('is the same after JSON at any reading', () => {
    for (const list of [camera(truths, 3, 0.05), wheelAndMarks(truths, 3, 0.005), pedal(truths, 3, pauses, 0.1)]) {
      let [plain, through] = [startTrack(USUAL), startTrack(USUAL)];
      for (const each of list) {
        plain = assimilateInOrder(plain, each).track;
        through = assimilateInOrder(JSON.parse(JSON.stringify(through)), each).track;
      }
      expect(through).toEqual(plain);
    }
  });
});

describe('doubt', () => {
  it('grows without a leap while nothing is heard, and in two steps as in one', () => {
    for (const list of [camera(truths, 4), wheelAndMarks(truths, 4, 0), pedal(truths, 4, pauses)]) {
      const { now } = run(list);
      if (now === null) throw new Error('no track');
      const from = now.belief.atMs;
      let lastSd = 0;
      for (let ms = 0; ms <= 3000; ms += 10) {
        const sd = Math.sqrt(beliefAt(now, from + ms).cov[0]);
        expect(sd).toBeGreaterThanOrEqual(lastSd);
        if (ms > 0) expect(sd - lastSd).toBeLessThan(0.5);
        lastSd = sd;
      }
      const once = beliefAt(now, from + 3000);
      const twice = beliefAt({ ...now, belief: beliefAt(now, from + 1300) }, from + 3000);
      for (const [index, cell] of once.cov.entries())
        expectClose(twice.cov[index] ?? Number.NaN, cell, 1e-9 * Math.max(1, Math.abs(cell)), `cell ${index}`);
      expectClose(twice.mean[0], once.mean[0], 1e-9, 'place');
    }
  });

  it('is less for a slow feed that a foot follows, which tells of stops, than for one whose marks are only read', () => {
    const slow = (by: 'press' | 'scan'): number => {
      const marks = Array.from(
        { length: 6 },
        (_, mark): Evidence => ({ kind: 'fix', by, atMs: 9000 * mark, positionMm: 150 * mark }),
      );
      return placeAt(run(marks), 9000 * 5 + 8000)?.sdMm ?? Number.NaN;
    };
    expect(slow('press')).toBeLessThan(0.7 * slow('scan'));
  });

  it('stays a covariance through whatever is said', () => {
    const positionMm = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    const evidence = fc.oneof(
      fc.record({
        kind: fc.constant('fix' as const),
        by: fc.constantFrom('scan' as const, 'press' as const),
        positionMm,
      }),
      fc.record({ kind: fc.constant('count' as const), mm: positionMm }),
      fc.record({ kind: fc.constantFrom('standing' as const, 'moving' as const) }),
    );
    const said = fc.array(fc.tuple(fc.integer({ min: 0, max: 20_000 }), evidence), { maxLength: 60 });
    fc.assert(
      fc.property(said, (list) => {
        let atMs = 0;
        let track = startTrack(USUAL);
        for (const [gapMs, each] of list) {
          atMs += gapMs;
          track = assimilateInOrder(track, { ...each, atMs }).track;
          if (track.now === null) continue;
          const [a, b, c, , e, f, , , i] = carryOn(track.now.belief, track.now.belief.atMs, {
            acceleration: 0,
            zeroPerMm: 0,
          }).cov;
          expect(Math.min(a, e, i)).toBeGreaterThanOrEqual(0);
          // No two of the three go together more closely than entirely, but for rounding.
          for (const [cov, one, other] of [
            [b, a, e],
            [c, a, i],
            [f, e, i],
          ] as const)
            expect(cov * cov).toBeLessThanOrEqual(one * other * (1 + 1e-6) + 1e-9);
        }
      }),
      { numRuns: 150 },
    );
  });
});
