import { degreeSteps } from '../../server/core/routine/degreeSteps.ts';
import type { RunSetup } from '../../server/core/run/engine/state.ts';
import { phrases } from '../../server/core/words/phrases.ts';

/** Five marks 150 mm apart, bevels 8, 10, 12, 11, 9: words of a second, a reaction of 0.35 s, 1.4 degrees a second at the wheel. */
export function smallSetup(overrides: Partial<RunSetup> = {}): RunSetup {
  const degs = [8, 10, 12, 11, 9];
  const stations = degs.map((deg, index) => ({ mark: index + 1, positionMm: index * 150, tiltDeg: deg, callDeg: deg }));
  const callTexts = degs.map((deg) => `bevel ${deg}`);
  const spoken = [...callTexts, ...Object.values(phrases)];
  return {
    mode: 'pair',
    routine: 'mark by mark',
    stations,
    callTexts,
    durationsMs: Object.fromEntries(spoken.map((text) => [text, 1000])),
    profile: { positionsMm: stations.map((s) => s.positionMm), tiltsDeg: degs },
    crew: { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 3 },
    degreesPerTurn: 2,
    ...overrides,
  };
}

/** The same in the routine that calls each half degree; words of 0.9 s. */
export function degreeSetup(overrides: Partial<RunSetup> = {}): RunSetup {
  const { profile, durationsMs, ...rest } = smallSetup({ routine: 'degree by degree', ...overrides });
  const words = (deg: number): string => `step ${deg}`;
  const steps = degreeSteps(profile, profile.tiltsDeg[0] ?? 0, { readoutDeg: 0.5, readoutTable: [], words });
  const stepsMs = Object.fromEntries(steps.map(({ text }) => [text, 900]));
  return { ...rest, profile, steps, durationsMs: { ...durationsMs, ...stepsMs } };
}
