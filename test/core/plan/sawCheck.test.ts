import { describe, expect, test } from 'vitest';
import { makePlan } from '../../../server/core/makePlan.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { sawTruthLines } from '../../../server/core/text/sawCheckText.ts';
import { planAsText } from '../../../server/text/planText.ts';
import { parseJob } from '../../../server/wire/job/parseJob.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { demoPlan } from '../../kit/demoPlan.ts';

function planOf(saw: object): Plan {
  const made = makePlan(aJob({ shape: picked([0, 4], [450, 9], [900, 11], [1350, 7], [1800, 2]), saw }));
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
const codes = ({ warnings }: Plan) => warnings.map(({ code }) => code);
const told = (plan: Plan, code: string) => plan.warnings.find((warning) => warning.code === code)?.message;

describe('what is done before a rip', () => {
  test('the square at zero stands first, with what the readout must show', () => {
    expect(planOf({}).sawTruth?.squareShowsDeg).toBe(0);
    expect(
      planOf({
        readoutTable: [
          [0.5, 0],
          [10, 10],
          [20, 20.2],
        ],
      }).sawTruth?.squareShowsDeg,
    ).toBe(0.5);
    const lines = sawTruthLines(planOf({}).sawTruth ?? never());
    expect(lines[0]).toMatch(/^Check square before each rip, with the saw switched off/);
    expect(lines.at(-1)).toContain('trial on cheap stock');
  });

  test('the looseness: how the first bevel is come to, and at which calls the way of turning changes', () => {
    // The head leads: 2 up to 11 at the middle, then down to 4.
    const plan = planOf({ backlashTurns: 0.25 });
    expect(plan.leads).toBe('head');
    const order = plan.marks.toReversed();
    const top = Math.max(...order.map(({ callDeg }) => callDeg));
    const first = order.find(({ callDeg }, i) => i > 0 && callDeg < (order[i - 1]?.callDeg ?? 0));
    expect(order.filter(({ callDeg }) => callDeg === top).length).toBeGreaterThan(0);
    expect(plan.sawTruth).toMatchObject({
      comeToFirst: 'from less tilt',
      looseness: { turns: 0.25, atMarks: [first?.mark] },
    });
    expect(plan.sawTruth?.looseness?.seconds).toBeCloseTo(0.25 / 0.7, 9);
    const line = sawTruthLines(plan.sawTruth ?? never())[2];
    expect(line).toContain('a quarter turn');
    expect(line).toContain('never overshoot a bevel');
    expect(planOf({}).sawTruth?.looseness).toBeNull();
  });

  test('the first bevel is come to by figures, which cannot be taken by size where they are negative', () => {
    const under = (saw: object): Plan => {
      const shape = picked([0, -9], [450, -8], [900, -7.5], [1350, -7], [1800, -6.5]);
      const made = makePlan(aJob({ shape, saw: { tiltDeg: [-45, 45], ...saw } }));
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      return made.value;
    };
    const plan = under({ leans: 'right' });
    const other = under({ leans: 'left' });
    for (const each of [plan, other]) {
      const order = each.leads === 'head' ? each.marks.toReversed() : each.marks;
      const [first, next] = [
        order[0]?.callDeg ?? 0,
        order.find(({ callDeg }) => callDeg !== order[0]?.callDeg)?.callDeg ?? 0,
      ];
      const { firstBevel } = each.sawTruth ?? never();
      expect(firstBevel).toMatchObject({ callDeg: first, towardDeg: next });
      // From beyond it: first lies between where it is come from and what is turned to next.
      expect(Math.sign(first - (firstBevel?.fromDeg ?? first))).toBe(Math.sign(next - first));
      const line = sawTruthLines(each.sawTruth ?? never())[2];
      expect(line).toContain(`from ${firstBevel?.fromDeg}° to ${first}°: the first turn`);
      expect(line).not.toMatch(/less|more/);
    }
  });

  test('twice the looseness away, and no figure where the saw does not reach one', () => {
    const fromOf = (saw: object): number | null | undefined => planOf(saw).sawTruth?.firstBevel?.fromDeg;
    const call = planOf({}).sawTruth?.firstBevel?.callDeg ?? Number.NaN;
    expect(call - (fromOf({}) ?? 0)).toBeCloseTo(1.5, 9);
    // A turn is 3 degrees: half a turn of looseness is 1.5, and twice that 3.
    expect(call - (fromOf({ backlashTurns: 0.5, degreesPerTurn: 3 }) ?? 0)).toBeCloseTo(3, 9);
    expect(fromOf({ tiltDeg: [call - 1, 45] })).toBeNull();
    expect(sawTruthLines(planOf({ tiltDeg: [call - 1, 45] }).sawTruth ?? never())[2]).toContain(
      'as far as the saw lets you',
    );
  });

  test('stands in the plan as text and as JSON', async () => {
    const plan = await demoPlan();
    expect(planAsText(plan)).toContain('The saw tells the truth');
    expect(JSON.parse(JSON.stringify(plan)).sawTruth).toMatchObject({ comeToFirst: 'from less tilt' });
  });
});

describe('the readout table', () => {
  test('an error that jumps from block to block is rather a slip; one that is great everywhere wants setting first', () => {
    expect(
      codes(
        planOf({
          readoutTable: [
            [0, 0],
            [8, 10],
            [20, 20],
          ],
        }),
      ),
    ).toContain('readout-table');
    expect(
      told(
        planOf({
          readoutTable: [
            [0, 0],
            [8, 10],
            [20, 20],
          ],
        }),
        'readout-table',
      ),
    ).toContain('measure both blocks again');
    expect(
      told(
        planOf({
          readoutTable: [
            [4, 0],
            [14.2, 10],
            [24.3, 20],
          ],
        }),
        'readout-table',
      ),
    ).toContain('Set it first');
    expect(
      codes(
        planOf({
          readoutTable: [
            [0, 0.2],
            [10, 10.1],
            [20, 20.3],
          ],
        }),
      ),
    ).not.toContain('readout-table');
  });

  test('bevels beyond the last block, and blocks far apart, are warned of', () => {
    expect(
      told(
        planOf({
          readoutTable: [
            [0, 0],
            [5, 5.1],
          ],
        }),
        'readout-table',
      ),
    ).toContain('Test a block near');
    expect(
      told(
        planOf({
          readoutTable: [
            [0, 0],
            [25, 25.1],
          ],
        }),
        'readout-table',
      ),
    ).toContain('near 13°');
  });

  test('one that does not rise is refused with its place', () => {
    const files = { 'p.csv': 'girth,bevel\n0,4\n900,8\n' };
    const job = (saw: object) => ({
      format: 'by-the-mark/job@1',
      frame: { siding: 48 },
      shape: { pickup: 'p.csv' },
      saw,
    });
    for (const table of [
      [
        [0, 0],
        [10, 10],
        [9, 11],
      ],
      [
        [0, 0],
        [10, 10],
        [11, 9],
      ],
    ]) {
      const parsed = parseJob(job({ readoutTable: table }), files);
      expect(parsed.ok ? [] : parsed.problems.map(({ code }) => code)).toEqual(['out-of-order']);
    }
    const given = {
      turnsTable: [
        [0, 0],
        [5, 5],
        [10, 20],
      ],
      backlashTurns: 0.25,
    };
    expect(parseJob(job(given), files)).toMatchObject({ ok: true, value: { saw: given } });
    const plain = parseJob(job({}), files);
    expect(plain.ok && 'turnsTable' in plain.value.saw).toBe(false);
    expect(plain.ok && plain.value.defaults.some((field) => /turnsTable|backlash/.test(field))).toBe(false);
    const bad = (saw: object) => {
      const parsed = parseJob(job(saw), files);
      return parsed.ok ? [] : parsed.problems.map(({ code, at }) => [code, at.field]);
    };
    expect(bad({ turnsTable: [[0, 0]] })).toEqual([['too-few', 'saw.turnsTable']]);
    expect(
      bad({
        turnsTable: [
          [0, 0],
          [5, 5],
          [4, 7],
        ],
      }),
    ).toEqual([['out-of-order', 'saw.turnsTable[2][0]']]);
    expect(
      bad({
        turnsTable: [
          [0, 0],
          [5, 5],
          [6, 5],
        ],
      }),
    ).toEqual([['out-of-order', 'saw.turnsTable[2][1]']]);
    expect(bad({ backlashTurns: -1 })).toEqual([['out-of-range', 'saw.backlashTurns']]);
  });
});

test('a table of turns that does not reach the frame, or was miscounted, is warned of', () => {
  expect(
    told(
      planOf({
        turnsTable: [
          [0, 0],
          [2, 5],
        ],
      }),
      'turns-table',
    ),
  ).toContain('Count the turns there too');
  expect(
    told(
      planOf({
        turnsTable: [
          [0, 0],
          [2, 4],
          [5, 5],
          [7, 9],
          [11, 17],
        ],
      }),
      'turns-table',
    ),
  ).toContain('count the turns there again');
  expect(
    codes(
      planOf({
        turnsTable: [
          [-2, -4],
          [0, 0],
          [3, 7],
          [6, 15],
        ],
      }),
    ),
  ).not.toContain('turns-table');
});

function never(): never {
  throw new Error('a plan of now');
}
