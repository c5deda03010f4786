import { plainNotation } from '../../server/core/figures/notation.ts';
import type { Job, PickUp } from '../../server/core/job.ts';

type Parts = { [K in keyof Job]?: Job[K] extends readonly unknown[] | string ? Job[K] : Partial<Job[K]> };

/** A job that raises no warning, with what a test cares about put in its place. */
export function aJob(parts: Omit<Parts, 'shape' | 'marks'> & Partial<Pick<Job, 'shape' | 'marks'>> = {}): Job {
  return {
    title: parts.title ?? 'A frame',
    units: parts.units ?? 'mm',
    notation: parts.notation ?? plainNotation(parts.units ?? 'mm'),
    frame: {
      label: '9',
      side: 'starboard',
      sidingMm: 48,
      mouldingMm: 75,
      mouldedFace: 'forward',
      ...parts.frame,
    },
    shape: parts.shape ?? readTwice(picked([0, 4], [450, 9], [900, 11], [1350, 7], [1800, 2])),
    marks: parts.marks ?? { kind: 'spacing', spacingMm: 150 },
    saw: {
      kerfMm: 2.4,
      bladeWidthMm: 25,
      bladeThicknessMm: 1.1,
      tiltDeg: [-5, 45],
      leans: 'right',
      pivotHeightMm: 0,
      degreesPerTurn: 3,
      readoutDeg: 0.5,
      readoutTable: [],
      ...parts.saw,
    },
    crew: { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 2, ...parts.crew },
    stack: { laminationMm: 3.2, species: 'white oak', ...parts.stack },
    ...(parts.rip === undefined ? {} : { rip: parts.rip }),
    voice: { language: 'en', form: 'angle', numbers: 'digits', ...parts.voice },
    defaults: parts.defaults ?? [],
  };
}

/** A pick-up of these [girth mm, bevel degrees]. */
export function picked(...rows: readonly (readonly [number, number])[]): PickUp {
  return {
    kind: 'pick-up',
    file: 'pickup.csv',
    rows: rows.map(([girthMm, bevelDeg]) => ({ girthMm, bevelDeg, weight: 1 })),
    errorDeg: 0.5,
  };
}

/** Every place read twice alike: then five places are enough. */
const readTwice = (shape: PickUp): PickUp => ({ ...shape, rows: shape.rows.flatMap((row) => [row, row]) });

/** The pick-up of a job that has one. */
export function pickUpOf({ shape }: Job): PickUp {
  if (shape.kind !== 'pick-up') throw new Error(`a job from ${shape.kind}, not picked up`);
  return shape;
}
