/** That the eye which looks over thousands of runs sees: each fault is put into a run that has none. */
import { expect, it } from 'vitest';
import { CHOICES } from '../../../server/core/simulate/choices.ts';
import { simulatorOf } from '../../../server/core/simulate/simulatePlan.ts';
import type { Simulated, SimulatedCall } from '../../../server/core/simulate/simulation.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { wantedOf } from './wanted.ts';
import { wrongsOf } from './wrongsOf.ts';

const plan = await demoPlan();
const wanted = wantedOf(plan);
const mPerMin = 2;

function clean(name: string): Simulated {
  const choice = CHOICES[name];
  if (choice === undefined) throw new Error(`no routine ${name}`);
  return simulatorOf(plan)(choice, { mPerMin, seed: 3 });
}
const kinds = (run: Simulated, isByDegrees: boolean): string[] =>
  wrongsOf(wanted, run, { mPerMin, isByDegrees, source: 'travel' }).map(({ kind }) => kind);

const AT = 4;
const withCall = (run: Simulated, change: (call: SimulatedCall) => Partial<SimulatedCall>): Simulated => ({
  ...run,
  calls: run.calls.map((call, index) => (index === AT ? { ...call, ...change(call) } : call)),
});
const without = (run: Simulated, from: number, to: number): Simulated => ({
  ...run,
  calls: run.calls.filter((_, index) => index < from || index >= to),
});

it.each([
  ['a figure that is not the mark’s', (call: SimulatedCall) => ({ deg: (call.deg ?? 0) + 0.5 }), 'wrong figure'],
  ['words that are over behind their mark', () => ({ marginMs: -1 }), 'late'],
  ['words into the next call', () => ({ endsAtMs: 1e6 }), 'overlap'],
])('sees, mark by mark, %s', (_what, change, kind) => {
  const run = clean('mark by mark on a measuring wheel');
  expect(kinds(run, false)).toEqual([]);
  expect(kinds(withCall(run, change), false)).toContain(kind);
});

it('sees a mark that is passed over, and a run that never ends', () => {
  const run = clean('mark by mark on a measuring wheel');
  expect(kinds(without(run, AT, AT + 1), false)).toContain('passed over');
  expect(kinds({ ...run, isFinished: false }, false)).toEqual(['never finished']);
});

it('sees, degree by degree, a figure that comes nowhere, one too early, one too late, and too many left out', () => {
  const run = clean('degree by degree');
  expect(kinds(run, true)).toEqual([]);
  expect(
    kinds(
      withCall(run, () => ({ deg: 60 })),
      true,
    ),
  ).toContain('wrong figure');
  expect(
    kinds(
      withCall(run, ({ startsAtMm, endsAtMm }) => ({ startsAtMm: startsAtMm - 60, endsAtMm: endsAtMm - 60 })),
      true,
    ),
  ).toContain('wrong figure');
  expect(
    kinds(
      withCall(run, ({ endsAtMm }) => ({ endsAtMm: endsAtMm + 60 })),
      true,
    ),
  ).toContain('late');
  expect(kinds(without(run, AT, AT + 3), true)).toContain('passed over');
});
