/** Rips to reckon the pace of, as tests want them. */
import * as fc from 'fast-check';
import type { PacedMark, PacedRip } from '../../../server/core/routine/crewTime.ts';

/** A rip over these marks whose tilt goes straight from call to call; a saw that limits nothing unless told otherwise. */
export function aRip(
  calls: readonly Omit<PacedMark, 'tiltDeg'>[],
  crew: PacedRip['crew'],
  degreesPerTurn: number,
  saw: Partial<PacedRip['saw']> = {},
): PacedRip {
  const marks = calls.map((mark) => ({ ...mark, tiltDeg: mark.callDeg }));
  return {
    marks,
    profile: marks.map(({ alongMm, callDeg }) => ({ alongMm, tiltDeg: callDeg })),
    crew,
    saw: { degreesPerTurn, readoutDeg: 0.5, twistLimitDegPerM: 1e6, feedMPerMin: null, ...saw },
    figureWordsS: () => 0.5,
  };
}

const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Marks in either order, a profile that goes through wild places between them, any crew and any saw. */
export const anyRip: fc.Arbitrary<PacedRip> = fc
  .record({
    headLeads: fc.boolean(),
    spans: fc.array(
      fc.record({ lengthMm: range(5, 400), callDeg: range(-10, 40), wordsS: range(0.2, 3), between: range(-10, 40) }),
      { minLength: 2, maxLength: 12 },
    ),
    crew: fc.record({ reactionS: range(0, 2), turnsPerS: range(0.05, 3), feedMPerMin: range(0.1, 20) }),
    saw: fc.record({
      degreesPerTurn: range(0.2, 20),
      readoutDeg: fc.constantFrom(0.1, 0.5, 1),
      twistLimitDegPerM: range(2, 200),
      feedMPerMin: fc.option(range(0.5, 20)),
    }),
    wordsS: range(0.2, 2),
  })
  .map(({ headLeads, spans, crew, saw, wordsS }) => {
    let alongMm = 0;
    const marks: PacedMark[] = [];
    const profile: { alongMm: number; tiltDeg: number }[] = [];
    spans.forEach(({ lengthMm, callDeg, wordsS: ownS, between }, i) => {
      marks.push({ mark: i + 1, alongMm, callDeg, tiltDeg: callDeg, wordsS: ownS });
      profile.push({ alongMm, tiltDeg: callDeg });
      if (i < spans.length - 1) profile.push({ alongMm: alongMm + lengthMm / 3, tiltDeg: between });
      alongMm += lengthMm;
    });
    const order = <T>(fromHeel: readonly T[]): readonly T[] => (headLeads ? fromHeel.toReversed() : fromHeel);
    return { marks: order(marks), profile: order(profile), crew, saw, figureWordsS: () => wordsS };
  });
