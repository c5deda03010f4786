import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../server/core/job.ts';
import { bendPlanOf } from '../../../server/core/plan/bendPlan.ts';
import { layCut } from '../../../server/core/rip/cut.ts';
import { handOf, orientationOf } from '../../../server/core/rip/leadingEnd.ts';
import type { PlannedMark } from '../../../server/core/rip/plannedMark.ts';
import { wedgesOf } from '../../../server/core/rip/wedges.ts';
import { bendCures, bendCureText, cureHolds, type LayeredCure } from '../../../server/core/stack/bendCures.ts';
import { leastRadiusOverThickness } from '../../../server/core/stack/bendLimit.ts';
import { EVEN_FLATS } from '../../../server/core/stack/flats.ts';
import { bendsOf, isWithinLimit, wedgeBends } from '../../../server/core/stack/wedgeBend.ts';
import { bendWarnings } from '../../../server/core/text/stackWarnings.ts';
import { aJob } from '../../kit/aJob.ts';
import { holds } from '../../kit/holds.ts';

const evenly = () => EVEN_FLATS;

/** Marks as a plan has them, sawn along a fence with the axis on the table. */
function marksOf(
  job: Job,
  places: readonly { readonly deg: number; readonly radiusMm: number | null }[],
): PlannedMark[] {
  const hand = handOf(places.map(({ deg }) => deg));
  const { thickEdge } = orientationOf(job.frame, job.saw.leans, hand);
  const cut = layCut(
    { kerfMm: job.saw.kerfMm, straightAtMm: 0 },
    job.frame.sidingMm,
    places.map(({ deg }) => hand * deg),
  );
  return places.map(({ deg, radiusMm }, i) => {
    const { outerMm, innerMm } = wedgesOf(cut, hand * deg, thickEdge);
    return {
      ...{
        mark: i + 1,
        girthMm: i * 100,
        bevelDeg: deg,
        sawnDeg: deg,
        callDeg: hand * deg,
        yMm: null,
        zMm: null,
        radiusMm,
      },
      ...{ stockMm: i * 100, innerStockMm: i * 100, lineTopMm: 0, lineBottomMm: 0 },
      ...{ outerEdgesMm: outerMm, innerEdgesMm: innerMm },
    };
  });
}

describe('the radius that a wedge lies in', () => {
  const at = { mark: 1, radiusMm: 1000, outerMm: [3, 13], innerMm: [15, 5], layers: 1 } as const;
  const radii = (mark: Parameters<typeof bendsOf>[0], moulded: 'forward' | 'aft') =>
    bendsOf(mark, EVEN_FLATS, moulded, 75).map(({ wedge, thicknessMm, radiusMm }) => [
      wedge,
      thicknessMm,
      Number(radiusMm.toFixed(9)),
    ]);
  test('is that of its concave face: in a bilge the flat of the outer one and the sawn face of the inner one', () => {
    expect(radii(at, 'forward')).toStrictEqual([
      ['outer', 13, 997],
      ['inner', 15, 925],
    ]);
  });
  test('in a reverse turn the sawn face of the outer one and the flat of the inner one', () => {
    expect(radii({ ...at, radiusMm: -1000 }, 'aft')).toStrictEqual([
      ['outer', 13, 1000],
      ['inner', 15, 1070],
    ]);
  });
  test('is the one at the edge where that face lies nearer to the centre: a sawn face is not as deep at both edges', () => {
    // By hand, from the section.
    const under = { mark: 1, radiusMm: 1000, outerMm: [13, 3], innerMm: [5, 15], layers: 1 } as const;
    // The flat of the inner wedge at 75 - 5 = 70; its sawn face at 75 forward, at 70 + 15 = 85 aft.
    expect(radii(under, 'forward')).toStrictEqual([
      ['outer', 13, 987],
      ['inner', 15, 915],
    ]);
    // Reverse: the flat of the outer one 3 deep, its sawn face at 0 forward, at 3 - 13 = -10 aft, ten outboard of the moulded edge.
    expect(radii({ ...at, radiusMm: -1000 }, 'forward')).toStrictEqual([
      ['outer', 13, 990],
      ['inner', 15, 1060],
    ]);
    // In two layers, aft: 70 - 5 = 65 and two of 15 from there.
    expect(radii({ ...under, layers: 2 }, 'forward').slice(2)).toStrictEqual([
      ['inner', 15, 920],
      ['inner', 15, 905],
    ]);
  });
  test('is nothing where the turn is sharper than the frame is deep', () => {
    expect(radii({ ...at, radiusMm: 50 }, 'forward')[1]).toStrictEqual(['inner', 15, 0]);
  });
  test('in layers each lies at its own depth', () => {
    expect(radii({ ...at, layers: 2 }, 'forward')).toStrictEqual([
      ['outer', 13, 997],
      ['outer', 13, 994],
      ['inner', 15, 940],
      ['inner', 15, 925],
    ]);
  });
});

describe('what cures a wedge that is too thick for its turn', () => {
  const job = aJob({ frame: { sidingMm: 60, mouldingMm: 110 } });
  const marks = marksOf(job, [
    { deg: 0, radiusMm: null },
    { deg: 20, radiusMm: 1600 },
    { deg: 8, radiusMm: 4000 },
  ]);

  test('with their figures: two rips of half the bevel, resawing, planed layers, steam', () => {
    // 3 + 60 tan 20 = 24.8 thick, the inner one's sawn face at 1600 - 110 = 1490: 60 times, and 100 is wanted.
    const [warning] = bendWarnings(job, bendPlanOf(job, marks, evenly, 10));
    expect(warning).toMatchObject({ code: 'bend', mark: 2 });
    expect(warning?.message).toMatch(
      /24.8 mm thick .* 1490 mm, 60 times its thickness; the published limit for white oak is 100/,
    );
    const cures = bendCures(job, marks, evenly);
    expect(cures.map(({ kind }) => kind)).toStrictEqual(['rips', 'resawn', 'planed', 'steamed']);
    const [rips] = cures as readonly [LayeredCure];
    // Half the bevel: 3 + 60 tan 10 = 13.6 thick, 1490 / 13.6 = 109.8.
    expect(rips.layers).toBe(2);
    expect(rips.thickMm).toBeCloseTo(3 + 60 * Math.tan(Math.PI / 18), 1);
    expect(rips.plank?.thicknessMm).toBeCloseTo(6 + 60 * Math.tan(Math.PI / 18) + 2.4 / Math.cos(Math.PI / 18), 9);
    expect(warning?.message).toContain(
      // 19.01: what is needed is rounded up.
      '2 planks of 19.1 mm, each ripped with 1/2 of the bevel: layers of 3 mm to 13.6 mm',
    );
    expect(bendCureText(cures[3] as never, () => '')).toMatch(/^steam the wedges \(60 times/);
  });

  test('with how many marks more are too sharp, in a sentence of its own, and the radius as the table has it', () => {
    const three = marksOf(job, [
      { deg: 20, radiusMm: 1598.2 },
      { deg: 20, radiusMm: 1640 },
      { deg: 20, radiusMm: 1650 },
    ]);
    const message = bendWarnings(job, bendPlanOf(job, three, evenly, 10))[0]?.message;
    expect(message).toContain(
      'in a radius of 1488 mm, 60 times its thickness; the published limit for white oak is 100. It is too sharp at 2 more marks. What helps: ',
    );
    expect(bendWarnings(job, bendPlanOf(job, three.slice(0, 2), evenly, 10))[0]?.message).toContain(
      'is 100. It is too sharp at 1 more mark. ',
    );
  });

  test('bent cold beyond its strength it is said to break', () => {
    const sharper = marksOf(job, [
      { deg: 0, radiusMm: null },
      { deg: 20, radiusMm: 1200 },
    ]);
    expect(bendWarnings(job, bendPlanOf(job, sharper, evenly, 10))[0]?.message).toContain('Bent cold it breaks');
  });

  const frames = fc.record({
    mouldedFace: fc.constantFrom('forward' as const, 'aft' as const),
    sidingMm: fc.double({ min: 30, max: 100, noNaN: true }),
    species: fc.constantFrom('white oak', 'Douglas-fir', 'southern pine'),
    sign: fc.constantFrom(1, -1),
    places: fc.array(
      fc.record({
        deg: fc.double({ min: 0, max: 25, noNaN: true }),
        radiusMm: fc.option(fc.double({ min: 500, max: 5000, noNaN: true }).chain((r) => fc.constantFrom(r, -r))),
      }),
      { minLength: 2, maxLength: 8 },
    ),
  });

  test('applied, each holds the limit at every mark, and one layer fewer does not', () => {
    holds(
      fc.property(frames, ({ mouldedFace, sidingMm, species, sign, places }) => {
        const any = aJob({ frame: { mouldedFace, sidingMm, mouldingMm: 150 }, stack: { species } });
        const made = marksOf(
          any,
          places.map(({ deg, radiusMm }) => ({ deg: sign * deg, radiusMm })),
        );
        const cures = bendCures(any, made, evenly);
        if (isWithinLimit(wedgeBends(any, made, evenly), species)) expect(cures).toStrictEqual([]);
        for (const cure of cures) {
          if (cure.kind === 'steamed') continue;
          expect(cureHolds(any, cure, evenly)).toBe(true);
          // Second computation, from the layers themselves: no wedge's layer over its limit at the face that is nearest the centre.
          const least = leastRadiusOverThickness(species);
          for (const { radiusMm, outerMm, innerMm, layers } of cure.marks) {
            if (radiusMm === null) continue;
            const e = mouldedFace === 'forward' ? 0 : 1;
            const flats = [layers * outerMm[e], 150 - layers * innerMm[e]] as const;
            for (const [i, edges] of [outerMm, innerMm].entries()) {
              // The flat, and the sawn face at either edge; the concave side of the whole wedge bounds every layer of it.
              const flatMm = flats[i] ?? 0;
              const sawnMm = edges.map((mm) => (i === 0 ? flatMm - layers * mm : flatMm + layers * mm));
              const nearestMm = radiusMm > 0 ? Math.max(flatMm, ...sawnMm) : -Math.min(flatMm, ...sawnMm);
              const concave = Math.abs(radiusMm) - nearestMm;
              expect(concave / Math.max(...edges)).toBeGreaterThanOrEqual(least * (1 - 1e-9));
            }
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  test('the layers of every cure together have the whole bevel', () => {
    holds(
      fc.property(frames, ({ mouldedFace, sidingMm, sign, places }) => {
        const any = aJob({ frame: { mouldedFace, sidingMm, mouldingMm: 150 } });
        const made = marksOf(
          any,
          places.map(({ deg, radiusMm }) => ({ deg: sign * deg, radiusMm })),
        );
        for (const cure of bendCures(any, made, evenly)) {
          if (cure.kind === 'steamed') continue;
          for (const { mark, outerMm, innerMm, layers } of cure.marks) {
            const deg = Math.abs(made[mark - 1]?.sawnDeg ?? 0);
            for (const [forward, aft] of [outerMm, innerMm]) {
              const share = (Math.atan(Math.abs(aft - forward) / sidingMm) * 180) / Math.PI;
              const together =
                cure.kind === 'rips'
                  ? layers * share
                  : (Math.atan((layers * Math.abs(aft - forward)) / sidingMm) * 180) / Math.PI;
              expect(together).toBeCloseTo(deg, 8);
            }
          }
        }
      }),
    );
  });
});
