import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paceOf } from '../../../server/core/pace/pace.ts';
import { PAUSE_S, type PacedRip, START_UP_S, shownFromDeg } from '../../../server/core/routine/crewTime.ts';
import type { Pace } from '../../../server/core/routine/limits.ts';
import type { Routine } from '../../../server/core/routine/routine.ts';
import { wheelDegPerS } from '../../../server/core/saw/handwheel.ts';
import { holds } from '../../kit/holds.ts';
import { anyRip, aRip } from './pacedRips.ts';

const ROUTINES: readonly Routine[] = ['mark by mark', 'even turning', 'degree by degree', 'following'];
const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const orAny = (limitMPerMin: number | null | undefined): number => limitMPerMin ?? Number.POSITIVE_INFINITY;
const routineOf = ({ routines }: Pace, routine: Routine) => {
  const found = routines?.[routine];
  if (found === undefined) throw new Error(`no pace for ${routine}`);
  return found;
};
const lengthsOf = ({ marks }: PacedRip): readonly number[] =>
  marks.slice(1).map(({ alongMm }, i) => Math.abs(alongMm - (marks[i]?.alongMm ?? 0)));

describe.each(ROUTINES)('the pace of %s', (routine) => {
  test('is that of its slowest interval, and the saw goes before all', () => {
    holds(
      fc.property(anyRip, (rip) => {
        const pace = routineOf(paceOf(rip), routine);
        expect(pace.intervals).toHaveLength(rip.marks.length - 1);
        const limits = pace.intervals.map(({ limitMPerMin }) => orAny(limitMPerMin));
        expect(orAny(pace.limitMPerMin)).toBe(Math.min(...limits));
        if (rip.saw.feedMPerMin !== null)
          for (const limit of limits) expect(limit).toBeLessThanOrEqual(rip.saw.feedMPerMin);
        const spanM = lengthsOf(rip).reduce((a, b) => a + b, 0) / 1000;
        const feed = Math.min(rip.crew.feedMPerMin, orAny(pace.limitMPerMin));
        expect(pace.durationS).toBeCloseTo((spanM / feed) * 60, 6);
      }),
    );
  });

  test('is no faster at any interval for a slower crew, longer words or a lesser saw', () => {
    holds(
      fc.property(anyRip, range(0.2, 1), range(0, 1), (rip, share, moreS) => {
        const slower: PacedRip = {
          ...rip,
          marks: rip.marks.map((mark) => ({ ...mark, wordsS: mark.wordsS + moreS })),
          crew: { ...rip.crew, reactionS: rip.crew.reactionS + moreS, turnsPerS: rip.crew.turnsPerS * share },
          saw: { ...rip.saw, twistLimitDegPerM: rip.saw.twistLimitDegPerM * share },
          figureWordsS: (deg) => rip.figureWordsS(deg) + moreS,
        };
        const [before, after] = [routineOf(paceOf(rip), routine), routineOf(paceOf(slower), routine)];
        after.intervals.forEach(({ limitMPerMin }, i) => {
          expect(orAny(limitMPerMin)).toBeLessThanOrEqual(orAny(before.intervals[i]?.limitMPerMin) * (1 + 1e-9));
        });
      }),
    );
  });

  test('grows with the frame: twice as long in all, twice as fast', () => {
    holds(
      fc.property(anyRip, range(0.1, 10), (rip, times) => {
        const longer: PacedRip = {
          ...rip,
          marks: rip.marks.map((mark) => ({ ...mark, alongMm: mark.alongMm * times })),
          profile: rip.profile.map((place) => ({ ...place, alongMm: place.alongMm * times })),
          saw: {
            ...rip.saw,
            twistLimitDegPerM: rip.saw.twistLimitDegPerM / times,
            feedMPerMin: rip.saw.feedMPerMin === null ? null : rip.saw.feedMPerMin * times,
          },
        };
        const [one, other] = [routineOf(paceOf(rip), routine), routineOf(paceOf(longer), routine)];
        one.intervals.forEach(({ limitMPerMin }, i) => {
          const scaled = other.intervals[i]?.limitMPerMin ?? null;
          if (limitMPerMin === null) expect(scaled).toBeNull();
          else expect(orAny(scaled) / (limitMPerMin * times)).toBeCloseTo(1, 9);
        });
      }),
    );
  });
});

/** By how many seconds the feed leaves less than a routine needs, at the worst: 0 where it just does. Without the saw. */
type Lacking = (rip: PacedRip, mmPerS: number) => number;

const markByMarkLacks: Lacking = (rip, mmPerS) =>
  Math.max(
    ...lengthsOf(rip).map((lengthMm, i) => {
      const [from, to] = [rip.marks[i], rip.marks[i + 1]];
      const changeDeg = Math.abs((to?.callDeg ?? 0) - (from?.callDeg ?? 0));
      return (to?.wordsS ?? 0) + rip.crew.reactionS + changeDeg / wheelDegPerS(rip) - lengthMm / mmPerS;
    }),
  );

/** Every stretch of a list of places, by brute force: the work between its ends, less the slack, in the time that it takes. */
function stretchesLack(
  places: readonly { readonly alongMm: number; readonly workS: number }[],
  slackS: number,
  mmPerS: number,
): number {
  let worst = Number.NEGATIVE_INFINITY;
  for (const [i, from] of places.entries())
    for (const to of places.slice(i + 1)) {
      const workS = Math.abs(to.workS - from.workS) - slackS;
      if (workS > 0) worst = Math.max(worst, workS - Math.abs(to.alongMm - from.alongMm) / mmPerS);
    }
  return worst;
}

const followingLacks: Lacking = (rip, mmPerS) => {
  const rate = wheelDegPerS(rip);
  const places = rip.profile.map(({ alongMm, tiltDeg }) => ({ alongMm, workS: tiltDeg / rate }));
  return stretchesLack(places, shownFromDeg(rip) / rate, mmPerS);
};

/** The calls one after the other, each begun as early as it may be: how much later than it may be the last is understood. */
const evenTurningLacks: Lacking = (rip, mmPerS) => {
  const rate = wheelDegPerS(rip);
  const slack = shownFromDeg(rip);
  const lengths = lengthsOf(rip);
  const change = (turn: number): number =>
    Math.abs((rip.marks[turn]?.callDeg ?? 0) - (rip.marks[turn - 1]?.callDeg ?? 0));
  // The wood is 0.15 s late at every mark but the first, for it must come up to its feed.
  const atS = [0];
  for (const lengthMm of lengths) atS.push((atS.at(-1) ?? 0) + lengthMm / mmPerS);
  const passedS = (mark: number): number => (mark <= 0 ? 0 : (atS[mark] ?? 0) + 0.15);
  const leftS = Math.max(0, change(1) - slack) / rate;
  const firstTurnS = leftS + Math.min(leftS, START_UP_S / 2);
  let saidS = Number.NEGATIVE_INFINITY;
  let worst = Number.NEGATIVE_INFINITY;
  for (let turn = 1; turn < rip.marks.length; turn += 1) {
    saidS = Math.max(saidS + PAUSE_S, passedS(turn - 2)) + (rip.marks[turn]?.wordsS ?? 0);
    const beginsS = saidS + rip.crew.reactionS;
    const wholeS = (lengths[turn - 1] ?? 0) / mmPerS;
    const lateS =
      turn === 1
        ? beginsS + firstTurnS - passedS(1)
        : beginsS - passedS(turn - 1) - wholeS * Math.min(1, slack / change(turn));
    worst = Math.max(worst, lateS);
  }
  const places = rip.marks.map(({ alongMm, callDeg }) => ({ alongMm, workS: callDeg / rate }));
  return Math.max(worst, stretchesLack(places, slack / rate, mmPerS));
};

describe.each([
  ['mark by mark', markByMarkLacks],
  ['even turning', evenTurningLacks],
] as const)('at the limit of %s', (routine, lacks) => {
  test('there is just time enough', () => {
    holds(
      fc.property(anyRip, (any) => {
        const rip = { ...any, saw: { ...any.saw, feedMPerMin: null } };
        const { limitMPerMin } = routineOf(paceOf(rip), routine);
        fc.pre(limitMPerMin !== null);
        const mmPerS = (limitMPerMin ?? 1) / 0.06;
        expect(lacks(rip, mmPerS)).toBeCloseTo(0, 6);
        expect(lacks(rip, mmPerS * 1.01)).toBeGreaterThan(0);
      }),
    );
  });
});

test('at the limit of following the wheel can go with the wood over every stretch, and just so where the start does not limit', () => {
  holds(
    fc.property(anyRip, (any) => {
      const rip = { ...any, saw: { ...any.saw, feedMPerMin: null } };
      const { limitMPerMin, limitedBy } = routineOf(paceOf(rip), 'following');
      fc.pre(limitMPerMin !== null);
      const lacksS = followingLacks(rip, (limitMPerMin ?? 1) / 0.06);
      expect(lacksS).toBeLessThanOrEqual(1e-9);
      const startS = rip.crew.reactionS;
      if (limitedBy === 'wheel' && startS === 0) expect(lacksS).toBeCloseTo(0, 6);
    }),
  );
});

const steady = [
  { mark: 1, alongMm: 0, callDeg: 0, wordsS: 0.5 },
  { mark: 2, alongMm: 1000, callDeg: 20, wordsS: 0.5 },
  { mark: 3, alongMm: 2000, callDeg: 20, wordsS: 0.5 },
];
const crew = { reactionS: 0, turnsPerS: 1, feedMPerMin: 3 };

test('a steady change is followed as fast as the wheel turns, but for what the readout does not show', () => {
  // Worked by hand: 20 degrees in a metre, 2 a second, all but 0.25: 19.75 / 2 = 9.875 s a metre, 6.076 m/min.
  const pace = routineOf(paceOf(aRip(steady, crew, 2)), 'following');
  expect(pace.limitMPerMin).toBeCloseTo(60 / 9.875, 9);
  expect(pace.limitedBy).toBe('wheel');
  expect(pace.intervals[1]).toEqual({ limitMPerMin: null, limitedBy: null });
});

test('a feed begins so slowly that the hand notices in time', () => {
  // 20 degrees a metre: a quarter of a degree in 12.5 mm, for which a reaction of half a second leaves 25 mm/s, 1.5 m/min.
  const pace = routineOf(paceOf(aRip(steady, { ...crew, reactionS: 0.5 }, 20)), 'following');
  expect(pace.limitMPerMin).toBeCloseTo(1.5, 9);
  expect(pace.limitedBy).toBe('reaction');
});

test('whole degrees are called as fast as they can be said with a pause between', () => {
  // From mark 2 on 20 whole degrees of 0.5 + 0.06 s, but for a quarter of one: 19.75 x 0.56 = 11.06 s a metre, 5.425 m/min.
  const later = steady.map((mark, i) => ({ ...mark, callDeg: i < 2 ? 0 : 20 }));
  const pace = routineOf(paceOf(aRip(later, crew, 20)), 'degree by degree');
  expect(pace.limitMPerMin).toBeCloseTo(60 / 11.06, 9);
  expect(pace.limitedBy).toBe('words');
  // At the start the words of the first figure, due at 12.5 mm, must be over half the way on to the next one's 37.5 mm: 25 mm in
  // 0.5 s and 0.08 s until the speed is told, 2.586 m/min. Torn off there, the next one would have to be heard by the 37.5 mm where the first bevel is 0.75 degrees off.
  const atOnce = routineOf(paceOf(aRip(steady, crew, 20)), 'degree by degree');
  expect(atOnce.limitMPerMin).toBeCloseTo((25 * 0.06) / 0.58, 9);
  expect(atOnce.limitedBy).toBe('words');
});

test('a bevel that changes faster than the blade follows is called so, at the feed of the words', () => {
  holds(
    fc.property(anyRip, (any) => {
      const rip = { ...any, saw: { ...any.saw, feedMPerMin: null } };
      const gentle = paceOf({ ...rip, saw: { ...rip.saw, twistLimitDegPerM: 1e9 } });
      const { twistLimitDegPerM } = rip.saw;
      paceOf(rip).intervals.forEach((interval, i) => {
        const { limitMPerMin, limitedBy, wheelS, lengthMm } = interval;
        expect(limitMPerMin).toBe(gentle.intervals[i]?.limitMPerMin);
        const degPerM = (wheelS * wheelDegPerS(rip) * 1000) / lengthMm;
        fc.pre(Math.abs(degPerM / twistLimitDegPerM - 1) > 1e-9);
        expect(limitedBy).toBe(degPerM > twistLimitDegPerM ? 'twist' : gentle.intervals[i]?.limitedBy);
      });
    }),
  );
});

test('a saw that takes no more limits every routine', () => {
  const { routines, ...pace } = paceOf(aRip(steady, crew, 20, { feedMPerMin: 0.5 }));
  expect(pace).toMatchObject({ limitMPerMin: 0.5, limitedBy: 'saw' });
  for (const routine of Object.values(routines ?? {}))
    expect(routine).toMatchObject({ limitMPerMin: 0.5, limitedBy: 'saw' });
});
