/** Long because a plan is one answer: its parts are tested where they are made, and here that they fit each other. */
import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Result } from '../../server/core/errors.ts';
import type { Job, PickUp } from '../../server/core/job.ts';
import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { PlannedMark } from '../../server/core/rip/plannedMark.ts';
import type { Warning } from '../../server/core/warning.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { aJob, picked, pickUpOf } from '../kit/aJob.ts';
import { cases } from '../kit/cases.ts';
import { holds } from '../kit/holds.ts';

function planned(result: Result<Plan>): Plan {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.problems)}`);
  return result.value;
}
const plan = (job: Job): Plan => planned(makePlan(job));
const warned = (job: Job, code: Warning['code']): readonly Warning[] =>
  plan(job).warnings.filter((warning) => warning.code === code);
const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);
const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Points of an arc that leaves the heel level, outward and up, about `everyMm` apart. */
function arc(radiusMm: number, turnDeg: number, parts = 24) {
  const turn = (turnDeg * Math.PI) / 180;
  return Array.from({ length: parts + 1 }, (_, i) => ({
    yMm: 200 + radiusMm * Math.sin((turn * i) / parts),
    zMm: 100 + radiusMm * (1 - Math.cos((turn * i) / parts)),
  }));
}
const withPattern = (shape: PickUp, points: ReturnType<typeof arc>): PickUp => ({
  ...shape,
  pattern: { file: 'pattern.csv', points },
});

const frames: fc.Arbitrary<Job> = fc
  .record({
    gaps: fc.array(fc.integer({ min: 60, max: 250 }), { minLength: 1, maxLength: 14 }),
    bevels: fc.array(range(-14, 14), { minLength: 15, maxLength: 15 }),
    side: fc.constantFrom('port' as const, 'starboard' as const),
    mouldedFace: fc.constantFrom('forward' as const, 'aft' as const),
    leans: fc.constantFrom('left' as const, 'right' as const),
    sidingMm: range(20, 100),
    kerfMm: range(1.2, 4),
    pivotHeightMm: range(-20, 60),
    readoutDeg: fc.constantFrom(0.1, 0.2, 0.25, 0.5, 1),
    offsetDeg: range(-0.4, 0.4),
    spacingMm: fc.integer({ min: 40, max: 300 }),
  })
  .map((f) => {
    let girth = 0;
    const rows = [0, ...f.gaps].map((gap, i): [number, number] => {
      girth += gap;
      return [girth, f.bevels[i] ?? 0];
    });
    return aJob({
      frame: { side: f.side, mouldedFace: f.mouldedFace, sidingMm: f.sidingMm },
      shape: picked(...rows),
      marks: { kind: 'spacing', spacingMm: f.spacingMm },
      saw: {
        leans: f.leans,
        kerfMm: f.kerfMm,
        pivotHeightMm: f.pivotHeightMm,
        readoutDeg: f.readoutDeg,
        readoutTable: [
          [-30, -30 + f.offsetDeg],
          [30, 30 - f.offsetDeg],
        ],
      },
    });
  });

/** Frames whose plan is not refused: a curve may swing out of reason between random rows. */
const holdsForPlans = (check: (plan: Plan, job: Job) => void): void =>
  holds(
    fc.property(frames, (job) => {
      const result = makePlan(job);
      if (result.ok) check(result.value, job);
      else expect(result.problems.map(({ code }) => code)).toStrictEqual(['cannot-be-sawn']);
    }),
    { numRuns: cases(40) },
  );

describe('every mark of every plan', () => {
  test('has wedges that make a parallelogram and no edge under 3 mm', () => {
    holdsForPlans(({ marks }) => {
      for (const { outerEdgesMm: outer, innerEdgesMm: inner } of marks) {
        expect(outer[0] + inner[0]).toBeCloseTo(outer[1] + inner[1], 6);
        expect(Math.min(...outer, ...inner)).toBeGreaterThanOrEqual(3 - 1e-9);
      }
    });
  });

  test('has the bevel between its moulded face and its sawn face', () => {
    holdsForPlans(({ marks, frame }) => {
      for (const { outerEdgesMm, sawnDeg } of marks) {
        const [atMoulded, across] = frame.mouldedFace === 'forward' ? outerEdgesMm : [outerEdgesMm[1], outerEdgesMm[0]];
        expect(across - atMoulded).toBeCloseTo(frame.sidingMm * tan(sawnDeg), 6);
      }
    });
  });

  test('is called within half a step of what the readout has to show, and never as -0', () => {
    holdsForPlans(({ marks, hand, saw }, job) => {
      const [[shown0, true0], [shown1, true1]] = job.saw.readoutTable as [[number, number], [number, number]];
      for (const { callDeg, sawnDeg } of marks) {
        const shown = shown0 + ((hand * sawnDeg - true0) / (true1 - true0)) * (shown1 - shown0);
        expect(Math.abs(callDeg - shown)).toBeLessThanOrEqual(saw.readoutDeg / 2 + 1e-6);
        expect(Object.is(callDeg, -0)).toBe(false);
      }
    });
  });

  test('has its line on the stock, which leans as the saw is tilted, and lies farther along than the one before', () => {
    holdsForPlans(({ marks, hand, frame, stock }) => {
      marks.forEach(({ lineTopMm, lineBottomMm, sawnDeg, stockMm, mark }, i) => {
        expect(lineTopMm - lineBottomMm).toBeCloseTo(frame.sidingMm * tan(hand * sawnDeg), 6);
        expect(Math.min(lineTopMm, lineBottomMm)).toBeGreaterThan(0);
        expect(Math.max(lineTopMm, lineBottomMm)).toBeLessThan(stock.thicknessMm);
        expect(mark).toBe(i + 1);
        if (i > 0) expect(stockMm).toBeGreaterThan(marks[i - 1]?.stockMm ?? Number.NaN);
      });
      expect(marks[0]?.stockMm).toBe(0);
    });
  });
});

describe('a whole plan', () => {
  test('is plain data: a trip through JSON changes nothing', () => {
    holdsForPlans((made) => expect(JSON.parse(JSON.stringify(made))).toStrictEqual(made));
  });

  test('the other side of the boat, or the other lean, turns only the end that leads', () => {
    const other = { heel: 'head', head: 'heel' } as const;
    const turning = (key: string, value: unknown) => (key === 'leads' || key === 'fence' ? undefined : value);
    // How the saw is come to goes with the way of the run, as its pace does.
    const frameOf = ({ pace, frame, saw, sawTruth, warnings, ...rest }: Plan): unknown =>
      JSON.parse(JSON.stringify(rest, turning));
    holdsForPlans((made, job) => {
      const port = plan(
        aJob({ ...job, frame: { ...job.frame, side: made.frame.side === 'port' ? 'starboard' : 'port' } }),
      );
      const left = plan(aJob({ ...job, saw: { ...job.saw, leans: made.saw.leans === 'left' ? 'right' : 'left' } }));
      for (const turned of [port, left]) {
        expect(turned.leads).toBe(other[made.leads]);
        expect(frameOf(turned)).toStrictEqual(frameOf(made));
        expect(turned.pace.intervals.map(({ lengthMm }) => lengthMm)).toStrictEqual(
          made.pace.intervals.map(({ lengthMm }) => lengthMm).reverse(),
        );
      }
    });
  });

  test('the same bevels under instead of standing: the same tilt, the edges fore and aft, the other end leads', () => {
    holdsForPlans((made, job) => {
      const shape = pickUpOf(job);
      const rows = shape.rows.map((row) => ({ ...row, bevelDeg: -row.bevelDeg }));
      const under = plan(aJob({ ...job, shape: { ...shape, rows } }));
      const back = ([a, b]: readonly [number, number]) => [b, a];
      expect(under.hand).toBe(-made.hand);
      expect(under.leads).not.toBe(made.leads);
      expect(under.stock).toStrictEqual(made.stock);
      expect(under.marks.map(({ callDeg }) => callDeg)).toStrictEqual(made.marks.map(({ callDeg }) => callDeg));
      expect(under.marks.map(({ outerEdgesMm }) => outerEdgesMm)).toStrictEqual(
        made.marks.map(({ outerEdgesMm }) => back(outerEdgesMm)),
      );
    });
  });

  test('the stock is as thick as the greatest bevel asks for, and has waste at both ends', () => {
    const { stock, marks } = plan(aJob({ shape: picked([0, 12], [600, 12], [1200, 12]) }));
    expect(stock.thicknessMm).toBeCloseTo(2 * 3 + 48 * tan(12) + 2.4 / Math.cos((12 * Math.PI) / 180), 9);
    expect(stock.widthMm).toBe(48 + 2 * 2);
    expect(stock.lengthMm).toBeCloseTo(1200 + 2 * 200, 9);
    expect(marks.map(({ stockMm }) => stockMm)).toStrictEqual(marks.map(({ girthMm }) => girthMm));
  });

  test('the laminations fill what the wedges leave of the moulding', () => {
    const { stack, stock } = plan(aJob({ shape: picked([0, 0], [1000, 12]) }));
    const wedges = stock.thicknessMm - 2.4;
    expect(stack.plies).toBe(Math.floor((75 - wedges) / 3.2));
  });
});

describe('with a pattern', () => {
  const shape = picked([0, 8], [Math.PI * 500, 8]);
  const bent = (points = arc(1000, 90)) =>
    aJob({ shape: withPattern(shape, points), marks: { kind: 'spacing', spacingMm: 200 } });

  test('places and radii are those of the moulded edge', () => {
    const { marks } = plan(bent());
    for (const { girthMm, yMm, zMm, radiusMm } of marks.slice(1, -1)) {
      expect(yMm).toBeCloseTo(200 + 1000 * Math.sin(girthMm / 1000), 1);
      expect(zMm).toBeCloseTo(100 + 1000 * (1 - Math.cos(girthMm / 1000)), 1);
      expect(radiusMm).toBeGreaterThan(990);
      expect(radiusMm).toBeLessThan(1010);
    }
    expect(warned(bent(), 'pattern-length')).toStrictEqual([]);
  });

  test('the wedges are marked on the straight: each shorter than the girth by its depth times the turn', () => {
    const made = plan(bent());
    const centroid = (a: number, b: number) => (a * a + a * b + b * b) / (3 * (a + b));
    const turn = Math.PI / 2;
    const last = made.marks.at(-1) as PlannedMark;
    const first = made.marks[0] as PlannedMark;
    const [a, b] = last.outerEdgesMm;
    const [a2, b2] = last.innerEdgesMm;
    expect(last.stockMm).toBeCloseTo(500 * Math.PI - turn * (a - centroid(a, b)), 1);
    expect(last.innerStockMm - first.innerStockMm).toBeCloseTo(500 * Math.PI - turn * (75 - a2 + centroid(a2, b2)), 1);
    expect(made.stock.lengthMm).toBeCloseTo(last.stockMm + 400, 1);
  });

  test('both wedges agree at the place of the greatest bevel', () => {
    const { marks } = plan(
      aJob({
        shape: withPattern(picked([0, 4], [400, 8], [800, 12], [1200, 8], [Math.PI * 500, 4]), arc(1000, 90)),
        marks: { kind: 'at', girthsMm: [0, 800, 1500] },
      }),
    );
    expect(Math.abs((marks[1]?.innerStockMm ?? 0) - (marks[1]?.stockMm ?? 0))).toBeLessThan(2);
    expect(marks[0]?.innerStockMm).toBeGreaterThan(10);
    expect((marks[2]?.stockMm ?? 0) - (marks[2]?.innerStockMm ?? 0)).toBeGreaterThan(10);
  });

  test('a sharp turn is warned of at its worst mark, with the numbers and with cures', () => {
    const [warning, ...more] = warned(bent(arc(1000, 90)), 'bend');
    expect(more).toStrictEqual([]);
    expect(warning?.message).toMatch(/925|inner/);
    expect(warning?.message).toMatch(/published limit for white oak is 100/);
    expect(warned(aJob({ shape: withPattern(picked([0, 3], [1500, 3]), arc(3000, 28.65)) }), 'bend')).toStrictEqual([]);
  });

  test('a length that disagrees with the pick-up is warned of', () => {
    expect(warned(bent(arc(1000, 85)), 'pattern-length')).toHaveLength(1);
  });

  test('what the pattern does not reach is not known', () => {
    const { marks } = plan(bent(arc(1000, 85)));
    expect(marks.at(-1)).toMatchObject({ yMm: null, zMm: null, radiusMm: null });
    expect(marks[1]?.yMm).not.toBeNull();
  });

  test('a turn sharper than the frame is deep is refused, with the place', () => {
    const sharp = aJob({ shape: withPattern(picked([0, 8], [Math.PI * 25, 8]), arc(50, 90)) });
    expect(makePlan(sharp)).toMatchObject({
      ok: false,
      problems: [{ code: 'cannot-be-sawn', at: { file: 'pattern.csv' }, found: expect.stringContaining('girth') }],
    });
  });
});

describe('marks by tolerance', () => {
  const job = (toleranceDeg: number) => aJob({ marks: { kind: 'tolerance', toleranceDeg } });

  test('turning evenly between the calls stays within it', () => {
    for (const tolerance of [0.3, 0.5, 1]) {
      const { marks, curve } = plan(job(tolerance));
      for (const { girthMm, bevelDeg } of curve) {
        const after = Math.max(
          1,
          marks.findIndex((mark) => mark.girthMm >= girthMm),
        );
        const [a, b] = [marks[after - 1] as PlannedMark, marks[after] as PlannedMark];
        const share = (girthMm - a.girthMm) / (b.girthMm - a.girthMm);
        expect(Math.abs(a.callDeg + share * (b.callDeg - a.callDeg) - bevelDeg)).toBeLessThan(tolerance + 0.005);
      }
    }
  });

  test('a closer one takes more marks', () => {
    expect(plan(job(0.3)).marks.length).toBeGreaterThan(plan(job(1)).marks.length);
  });

  test('one that the readout cannot meet is refused, and what it can meet is told and then met', () => {
    const shape = picked([0, 3.25], [1000, 9]);
    const closer = makePlan(aJob({ shape, marks: { kind: 'tolerance', toleranceDeg: 0.1 } }));
    expect(closer).toMatchObject({
      ok: false,
      problems: [{ code: 'cannot-be-met', at: { field: 'marks.tolerance' }, found: '0.1°' }],
    });
    const least = closer.ok ? Number.NaN : Number.parseFloat(closer.problems[0]?.wanted.replace('at least ', '') ?? '');
    expect(least).toBeGreaterThanOrEqual(0.25);
    expect(makePlan(aJob({ shape, marks: { kind: 'tolerance', toleranceDeg: least } })).ok).toBe(true);
  });
});

/** To the bounds of the job file's own parser, far beyond what anyone saws. */
const wildJobs: fc.Arbitrary<Job> = fc
  .record({
    rows: fc.uniqueArray(fc.tuple(fc.integer({ min: 0, max: 5000 }), range(-59.9, 59.9)), {
      minLength: 2,
      maxLength: 30,
      selector: ([girth]) => girth,
    }),
    points: fc.option(
      fc.uniqueArray(
        fc.record({ yMm: fc.integer({ min: 0, max: 5000 }), zMm: fc.integer({ min: -2000, max: 5000 }) }),
        { minLength: 2, maxLength: 20, selector: ({ yMm, zMm }) => `${yMm} ${zMm}` },
      ),
    ),
    marks: fc.oneof(
      range(1, 100_000).map((spacingMm) => ({ kind: 'spacing' as const, spacingMm })),
      range(1e-6, 10).map((toleranceDeg) => ({ kind: 'tolerance' as const, toleranceDeg })),
      fc
        .uniqueArray(range(0, 5000), { minLength: 2, maxLength: 30 })
        .map((girthsMm) => ({ kind: 'at' as const, girthsMm: girthsMm.sort((a, b) => a - b) })),
    ),
    sidingMm: range(1e-6, 2000),
    mouldingMm: range(1e-6, 2000),
    pivotHeightMm: range(-2000, 2000),
    degreesPerTurn: range(1e-6, 90),
    readoutDeg: range(0.01, 5),
    laminationMm: range(1e-6, 200),
    reactionS: range(0, 10),
    feedMPerMin: range(1e-6, 100),
  })
  .map(({ rows, points, marks, ...f }) => {
    const shape = picked(...rows.sort(([a], [b]) => a - b));
    return aJob({
      frame: { sidingMm: f.sidingMm, mouldingMm: f.mouldingMm },
      shape: points === null ? shape : withPattern(shape, points),
      marks,
      saw: { pivotHeightMm: f.pivotHeightMm, degreesPerTurn: f.degreesPerTurn, readoutDeg: f.readoutDeg },
      crew: { reactionS: f.reactionS, feedMPerMin: f.feedMPerMin },
      stack: { laminationMm: f.laminationMm },
    });
  });

test('whatever the parser lets through is planned in finite numbers or refused with places', () => {
  holds(
    fc.property(wildJobs, (job) => {
      const result = makePlan(job);
      if (result.ok) expect(JSON.parse(JSON.stringify(result.value))).toStrictEqual(result.value);
      else for (const { at } of result.problems) expect(at.file ?? at.field).toBeDefined();
    }),
    { numRuns: cases(15), endOnFailure: true },
  );
});

describe('refusals', () => {
  test('a mark outside of what was picked up', () => {
    expect(makePlan(aJob({ marks: { kind: 'at', girthsMm: [0, 1900] } }))).toMatchObject({
      ok: false,
      problems: [{ code: 'out-of-range', at: { field: 'marks.at[1]' }, found: '1900 mm' }],
    });
  });
  test('a pick-up without any length to speak of', () => {
    expect(makePlan(aJob({ shape: picked([0, 1], [1e-300, 2]) }))).toMatchObject({
      ok: false,
      problems: [{ code: 'out-of-range', at: { file: 'pickup.csv' } }],
    });
  });
  test('bevels whose fair curve swings out of all reason', () => {
    expect(makePlan(aJob({ shape: picked([0, -50], [1, 50], [2000, -50], [2001, 50]) }))).toMatchObject({
      ok: false,
      problems: [{ code: 'cannot-be-sawn', at: { file: 'pickup.csv' } }],
    });
  });
});

describe('warnings', () => {
  test('a sensible job has none', () => {
    expect(plan(aJob()).warnings).toStrictEqual([]);
  });

  test.each(['frame.side', 'frame.mouldedFace', 'saw.leans'])('%s left out: the leading end is not sure', (field) => {
    const made = plan(aJob({ defaults: ['crew.reactionS', field] }));
    expect(made.leadsIsSure).toBe(false);
    expect(made.warnings).toMatchObject([{ code: 'which-end-unsure', message: expect.stringContaining(field) }]);
    expect(plan(aJob({ defaults: ['crew.reactionS'] })).leadsIsSure).toBe(true);
  });

  test('standing and under in one frame', () => {
    const [warning] = warned(aJob({ shape: picked([0, 9], [900, 4], [1800, -4]) }), 'both-hands');
    expect(warning?.message).toMatch(/standing where its bevel is greatest and under at marks \d+ to 13/);
    expect(warned(aJob({ shape: picked([0, 9], [900, 4], [1800, -0.1]) }), 'both-hands')).toStrictEqual([]);
  });

  test('the marks that the saw cannot tilt to, once', () => {
    const warnings = warned(aJob({ saw: { tiltDeg: [-1, 10.5] } }), 'tilt-out-of-reach');
    const { marks } = plan(aJob());
    const beyond = marks.filter(({ sawnDeg }) => sawnDeg > 10.5).map(({ mark }) => mark);
    expect(beyond.length).toBeGreaterThan(1);
    expect(warnings).toMatchObject([
      { message: expect.stringContaining(`Marks ${beyond[0]} to ${beyond.at(-1)} need the saw at up to 11`) },
    ]);
    expect(beyond).toContain(warnings[0]?.mark);
  });

  test('a bevel that turns faster than the blade can follow', () => {
    const job = aJob({ saw: { bladeWidthMm: 100 } });
    const { twist } = plan(job);
    expect(twist.maxDegPerM).toBeGreaterThan(twist.limitDegPerM);
    expect(warned(job, 'twist')).toMatchObject([
      { mark: expect.any(Number), message: expect.stringMatching(/narrower/) },
    ]);
  });

  test('a feed that leaves no time for the calls', () => {
    const job = aJob({ crew: { feedMPerMin: 12 } });
    expect(warned(job, 'pace')).toMatchObject([{ message: expect.stringMatching(/At 12 m\/min/) }]);
    const { pace } = plan(job);
    const floor = Math.floor(pace.limitMPerMin * 100) / 100;
    expect(warned(aJob({ crew: { feedMPerMin: floor } }), 'pace')).toStrictEqual([]);
    expect(pace.durationS).toBeCloseTo((1.8 / pace.limitMPerMin) * 60, 9);
  });

  test('wedges that leave no room for a lamination', () => {
    expect(warned(aJob({ frame: { mouldingMm: 17 } }), 'stack-too-thin')).toHaveLength(1);
  });

  test('a bevel far beyond the last test block of the readout', () => {
    const tested = (highest: number) =>
      aJob({
        saw: {
          readoutTable: [
            [0, 0],
            [highest, highest],
          ],
        },
      });
    expect(warned(tested(5), 'readout-table')).toHaveLength(1);
    expect(warned(tested(12), 'readout-table')).toStrictEqual([]);
  });

  test('marks too close to press one by one', () => {
    expect(warned(aJob({ marks: { kind: 'at', girthsMm: [0, 30, 900, 1800] } }), 'short-interval')).toMatchObject([
      { message: expect.stringContaining('30 mm between marks 1 and 2') },
    ]);
  });

  test('a suspect bevel, by its file and row', () => {
    const rows = Array.from({ length: 19 }, (_, i): [number, number] => [
      i * 100,
      4 + 7 * Math.sin((i * Math.PI) / 18),
    ]);
    rows[6] = [600, 17];
    const made = plan(aJob({ shape: picked(...rows) }));
    expect(made.fairing.suspects.map(({ row }) => row)).toStrictEqual([7]);
    expect(made.pickedUp.filter(({ suspect }) => suspect).map(({ girthMm }) => girthMm)).toStrictEqual([600]);
    expect(made.warnings).toMatchObject([
      { code: 'suspect-bevel', message: expect.stringContaining('pickup.csv, row 7') },
    ]);
  });
});

describe('the demo', () => {
  const read = (file: string) => readFileSync(new URL(`../../server/demo/${file}`, import.meta.url), 'utf8');
  const parsed = parseJob(JSON.parse(read('job.json')), {
    'pickup.csv': read('pickup.csv'),
    'pattern.csv': read('pattern.csv'),
  });

  test('is a job without a warning, at a feed that its crew can keep', () => {
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    const made = plan(parsed.value);
    expect(made.warnings).toStrictEqual([]);
    expect(made.leadsIsSure).toBe(true);
    expect(made.crew.feedMPerMin).toBeLessThan(made.pace.limitMPerMin);
    expect(made.twist.maxDegPerM).toBeLessThan(made.twist.limitDegPerM);
  });

  test('has small bevels at the head, the greatest at the turn of the bilge, and less again at the heel', () => {
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    const { marks } = plan(parsed.value);
    const greatest = marks.reduce((a, b) => (b.sawnDeg > a.sawnDeg ? b : a));
    const sharpest = marks.reduce((a, b) => ((b.radiusMm ?? 1e9) < (a.radiusMm ?? 1e9) ? b : a));
    expect(greatest.mark).toBe(sharpest.mark);
    expect(marks.at(-1)?.sawnDeg).toBeLessThan(marks[0]?.sawnDeg ?? 0);
    expect(marks[0]?.sawnDeg).toBeLessThan(greatest.sawnDeg);
  });
});
