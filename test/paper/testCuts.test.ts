/** The test-cut sheet: figures fine enough for the corrections that are sought, and from which side each is turned to. */
import { expect, test } from 'vitest';
import type { Plan } from '../../server/core/plan/plan.ts';
import { makePaper } from '../../server/paper/makePaper.ts';
import { comesFrom, readingsToTry } from '../../server/paper/sheets/wood/testCuts.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { linesOf, readPages } from './printed.ts';

const demo = await demoPlan();
const readCuts = async (plan: Plan): Promise<string> =>
  (await readPages(await makePaper({ plan, paper: 'test-cuts', size: 'a4' }))).flatMap(linesOf).join('\n');
const withCalls = (...calls: readonly number[]): Plan => {
  const [some] = demo.marks;
  if (some === undefined) throw new Error('no marks');
  return { ...demo, leads: 'heel', marks: calls.map((callDeg, index) => ({ ...some, mark: index + 1, callDeg })) };
};

test('in inches to a thousandth, with the true tilt for each half degree round the figure', async () => {
  const lines = await readCuts({ ...demo, units: 'in', notation: 'feet-inches-eighths' });
  for (const deg of [5, 10]) {
    // From the tangent and nothing else: off = 4 x tan(tilt).
    const off = (tilt: number): string => `${(4 * Math.tan((tilt * Math.PI) / 180)).toFixed(3)}`;
    expect(lines).toContain(`${deg}.0° both ${off(deg)}`);
    const around = [-1, -0.5, 0, 0.5, 1].map((by) => `${(deg + by).toFixed(1)}°: ${off(deg + by)}`);
    // A tenth of a degree there is seven thousandths: fifteen times finer than 1/32" shows.
    expect(lines).toContain(`${around.join(' ')} 0.007 in`);
  }
});

test('in millimetres a tenth of a degree shows in the figure', async () => {
  const lines = await readCuts(demo);
  expect(lines).toContain('4.0°: 6.99 4.5°: 7.87 5.0°: 8.75 5.5°: 9.63 6.0°: 10.51 0.18 mm');
});

test.each([
  ['rising', [2, 8, 12], 5, 'less'],
  ['falling', [12, 8, 2], 5, 'more'],
  ['over a hill', [2, 12, 2], 5, 'both'],
  ['the top of a hill', [2, 12, 2], 12, 'less'],
  ['never come to', [2, 8, 12], 0, 'either'],
  ['the first, from square at zero', [-6, -2, 3], -6, 'more'],
  ['turned past before the wood only', [12, 8, 6], 5, 'either'],
] as const)('%s', (_how, calls, deg, from) => expect(comesFrom(withCalls(...calls), deg)).toBe(from));

test('says what to do where the run comes to a figure from both sides, and only there', async () => {
  expect(readingsToTry(demo).some((deg) => comesFrom(demo, deg) === 'both')).toBe(true);
  expect((await readCuts(demo)).replaceAll('\n', ' ')).toContain('cut 1 from smaller figures, cut 2 from larger');
  expect(await readCuts(withCalls(2, 8, 12))).not.toContain('cut 2 from larger');
});
