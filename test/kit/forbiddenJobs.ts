/** Jobs, as they are written, whose plans forbid the cut. */
import type { JobFiles } from '../../server/web/webPorts.ts';
import { mergePatch } from '../../server/wire/job/mergePatch.ts';

/** A pick-up over this length (mm) of these bevels at even places. */
export const pickUpText = (lengthMm: number, bevelsDeg: readonly number[]): string =>
  [
    'girth,bevel',
    ...bevelsDeg.map((deg, i) => `${((lengthMm * i) / (bevelsDeg.length - 1)).toFixed(1)},${deg.toFixed(2)}`),
  ].join('\n');

const JOB = {
  format: 'by-the-mark/job@1',
  title: 'A frame that cannot be sawn so',
  units: 'mm',
  frame: { label: '9', side: 'starboard', siding: 48, moulding: 75, mouldedFace: 'forward' },
  shape: { pickup: 'pickup.csv' },
  marks: { spacing: 150 },
  saw: { kerf: 2.4, bladeWidth: 25, bladeThickness: 1.1, tilt: [-5, 45], leans: 'right', degreesPerTurn: 3 },
  crew: { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 3 },
  stack: { lamination: 3.2, species: 'white oak' },
};
const even = (fromDeg: number, toDeg: number): readonly number[] =>
  Array.from({ length: 9 }, (_, i) => fromDeg + ((toDeg - fromDeg) * i) / 8);

export function forbiddenJob(change: object, lengthMm: number, bevelsDeg: readonly number[]): JobFiles {
  return { job: mergePatch(JOB, change), files: { 'pickup.csv': pickUpText(lengthMm, bevelsDeg) } };
}

/** Each by the one code that forbids it. */
export const FORBIDDEN = {
  /** -8 at the heel, and the saw goes to -5. */
  'tilt-out-of-reach': forbiddenJob({ crew: { feedMPerMin: 1 } }, 1600, even(-8, 20)),
  'which-end-unsure': forbiddenJob({ frame: { side: null }, saw: { leans: null } }, 1800, even(4, 10)),
  /** 35 degrees a metre: more than a wide blade follows in its kerf. */
  twist: forbiddenJob({ saw: { bladeWidth: 38, degreesPerTurn: 4 }, crew: { feedMPerMin: 1 } }, 800, even(2, 30)),
  /** Big changes between far marks, and a wheel that turns them at once. */
  'quick-turn': forbiddenJob(
    { marks: { spacing: 200 }, saw: { bladeWidth: 38, degreesPerTurn: 8 } },
    1600,
    even(4, 30),
  ),
  'stack-too-thin': forbiddenJob({ frame: { moulding: 16 }, crew: { feedMPerMin: 1 } }, 1800, even(4, 10)),
} as const;
