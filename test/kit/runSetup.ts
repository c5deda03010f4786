import type { RunSetup } from '../../server/core/run/state.ts';
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
