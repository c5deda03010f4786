import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../server/core/job.ts';
import { handChanges } from '../../../server/core/rip/handChange.ts';
import { handChangeSentence } from '../../../server/core/text/leadingEndText.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { holds } from '../../kit/holds.ts';
import { planned } from '../../kit/planned.ts';
import { ripOf } from '../../kit/sawnFrame.ts';

const places = (...sawnDegs: readonly number[]) =>
  sawnDegs.map((sawnDeg, i) => ({ girthMm: i * 100, stockMm: i * 99, sawnDeg }));
const mm = (length: number): string => `${Math.round(length)} mm`;

describe('where the bevel changes hand', () => {
  test('is where it passes through square, on the straight line between two places', () => {
    expect(handChanges(places(6, 2, -2, -6), 0.25)).toStrictEqual([{ girthMm: 150, stockMm: 148.5, into: 'under' }]);
    expect(handChanges(places(-3, 1), 0.25)).toStrictEqual([{ girthMm: 75, stockMm: 74.25, into: 'standing' }]);
  });
  test('is nowhere while it only touches square, or passes it by less than the readout shows', () => {
    expect(handChanges(places(6, 0, 6), 0.25)).toStrictEqual([]);
    expect(handChanges(places(6, 0.1, -0.2, 0.1, 6), 0.25)).toStrictEqual([]);
    expect(handChanges(places(0, 0, 3), 0.25)).toStrictEqual([]);
  });
  test('is once for every turn of sign that is more than nothing', () => {
    holds(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 2, maxLength: 30 }), (degs) => {
        const shown = degs.filter((deg) => deg !== 0);
        const turns = shown.filter((deg, i) => i > 0 && Math.sign(deg) !== Math.sign(shown[i - 1] ?? 0)).length;
        const found = handChanges(places(...degs), 0.25);
        expect(found).toHaveLength(turns);
        for (const [i, { girthMm }] of found.entries())
          expect(girthMm).toBeGreaterThanOrEqual(found[i - 1]?.girthMm ?? 0);
      }),
    );
  });
});

describe('a plan of a frame that changes hand', () => {
  /** Standing 10 degrees at its most, under 4 toward the head. */
  const both = (parts: Parameters<typeof aJob>[0] = {}): Job =>
    aJob({ shape: picked([0, 6], [450, 10], [900, 4], [1350, -2], [1800, -4]), ...parts });

  test('names the place, and says to go on through zero where the saw reaches it', () => {
    const made = planned(both());
    const [change, ...more] = ripOf(made).handChanges;
    if (change === undefined) throw new Error('no change');
    expect(more).toStrictEqual([]);
    const [before, after] = [made.marks[change.afterMark - 1], made.marks[change.afterMark]];
    expect(before?.sawnDeg).toBeGreaterThan(0);
    expect(after?.sawnDeg).toBeLessThan(0);
    expect(change).toMatchObject({ into: 'under', isReached: true });
    expect(change.tiltDeg).toBeCloseTo(Math.min(...made.marks.map(({ sawnDeg }) => sawnDeg)), 1);
    const said = handChangeSentence(change, made, mm);
    expect(said).toContain(`After mark ${change.afterMark}, ${mm(change.stockMm)} along the stock`);
    expect(said).toContain('goes through zero to the other side');
    expect(said).toContain(`the ${made.leads} still leads`);
    expect(said).toContain('Do not stop, turn or lift it there.');
  });

  test('says to cross-cut it before the rip where the saw does not, and how the lesser length is laid', () => {
    const made = planned(both({ saw: { tiltDeg: [-1, 45] } }));
    const [change] = ripOf(made).handChanges;
    if (change === undefined) throw new Error('no change');
    expect(change.isReached).toBe(false);
    // A frame that is under all along, on the same saw: the length of the lesser bevels by itself.
    const lesser = planned(both({ shape: picked([0, -2], [450, -4]), saw: { tiltDeg: [-1, 45] } }));
    expect(change.alone).toStrictEqual({ leads: lesser.leads, upEdge: lesser.thickEdge });
    const said = handChangeSentence(change, made, mm);
    expect(said).toContain('Cross-cut the stock there before the rip');
    expect(said).toContain(`its ${lesser.leads} leads, its ${lesser.thickEdge} edge up`);
  });

  test('has none where the bevel keeps its hand', () => {
    expect(ripOf(planned(aJob())).handChanges).toStrictEqual([]);
  });
});
