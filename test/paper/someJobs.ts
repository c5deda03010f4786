/** Jobs at the ends of what can be asked, for whatever is printed. */
import fc from 'fast-check';
import type { Job } from '../../server/core/job.ts';
import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { aJob, picked } from '../kit/aJob.ts';

export function planOf(job: Job): Plan {
  const made = makePlan(job);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

const TITLES = [
  'A',
  'Frame 14, starboard, the one with the knuckle that was measured twice because the first batten was too short, and once more by lamp',
  'Łódź żaglowa, wręg dziewiąty, lewa burta',
  'Straße der Größe, Spant Nr. 9 (Steuerbord) ÄÖÜ ß',
  'Каркас девять, левый борт',
  '船の肋骨 九番 右舷',
  'A boat ⛵ called e\u0301cume \u202Eright to left',
  'W'.repeat(120),
  'tab\tand\nline',
] as const;

/** A pick-up over a girth of this length whose bevels swing between these. */
const pickedOver = (lengthMm: number, [low, high]: readonly [number, number]) =>
  picked(
    ...Array.from({ length: 9 }, (_, i): [number, number] => [
      (lengthMm * i) / 8,
      low + (high - low) * Math.sin((Math.PI * i) / 8) ** 2,
    ]),
  );

/** Two marks, three hundred, very close ones; a hand's breadth and twelve metres; titles in any writing. */
export const someRecipes = fc.record({
  title: fc.constantFrom(...TITLES),
  label: fc.constantFrom('9', '14 A', 'ein sehr langer Name für einen Spant'),
  units: fc.constantFrom('mm' as const, 'in' as const),
  side: fc.constantFrom('port' as const, 'starboard' as const),
  leans: fc.constantFrom('left' as const, 'right' as const),
  lengthMm: fc.constantFrom(120, 900, 1800, 5200, 12_000),
  swing: fc.constantFrom([2, 12], [-8, 14], [0, 0], [-25, -3], [20, 38]) as fc.Arbitrary<[number, number]>,
  marks: fc.constantFrom(2, 3, 12, 60, 300),
  sidingMm: fc.constantFrom(18, 48, 150),
  readoutDeg: fc.constantFrom(0.05, 0.5, 1),
  feeds: fc.constantFrom('along a fence' as const, 'along a line' as const),
  reach: fc.constantFrom([-45, 45], [-5, 6]) as fc.Arbitrary<[number, number]>,
  language: fc.constantFrom('en' as const, 'de' as const),
  form: fc.constantFrom('angle' as const, 'mark and angle' as const),
  numbers: fc.constantFrom('natural' as const, 'digits' as const, 'two digits' as const),
  defaults: fc.constantFrom([], ['saw.leans']),
});
export type Recipe = typeof someRecipes extends fc.Arbitrary<infer T> ? T : never;

export const planFrom = (some: Recipe): Plan =>
  planOf(
    aJob({
      title: some.title,
      units: some.units,
      frame: { label: some.label, side: some.side, sidingMm: some.sidingMm },
      shape: pickedOver(some.lengthMm, some.swing),
      marks: { kind: 'spacing', spacingMm: Math.max(0.5, some.lengthMm / (some.marks - 1)) },
      saw: { leans: some.leans, readoutDeg: some.readoutDeg, tiltDeg: some.reach },
      rip: { feeds: some.feeds },
      voice: { language: some.language, form: some.form, numbers: some.numbers },
      defaults: some.defaults,
    }),
  );
