/** Five marks 100 mm apart, of which some stand and those between are thought elsewhere. */
import { expect, test } from 'vitest';
import { type Respaceable, respacings } from '../../../server/core/pace/respace.ts';
import { expectClose } from '../../kit/close.ts';
import { aRip } from './pacedRips.ts';

const GIRTHS_MM = [0, 100, 200, 300, 400];
const crew = { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 3 };

/** A bevel of 2° every 100 mm; `back`: from 2° up to 6° at the third mark, and back. */
function ripOf(overrides: Partial<Respaceable> = {}, back = false): Respaceable {
  const degAt = (mm: number): number => (back ? 6 - Math.abs(mm - 200) / 50 : mm / 50);
  const markAt = (girthMm: number, mark: number) => ({
    mark,
    alongMm: girthMm,
    callDeg: degAt(girthMm),
    tiltDeg: degAt(girthMm),
    wordsS: 1,
  });
  const marks = GIRTHS_MM.map((mm, i) => markAt(mm, i + 1));
  return {
    ...aRip(marks, crew, 2),
    girthsMm: GIRTHS_MM,
    headLeads: false,
    wholeMm: 5,
    markAt,
    straysDeg: () => 0,
    ...overrides,
  };
}
const mPerMin = (mm: number, s: number): number => (60 * mm) / (1000 * s);

test('every even spacing between the two is tried, from one interval to twice as many as now', () => {
  const found = respacings(ripOf(), 2, 5);
  expect(found.map(({ moreMarks }) => moreMarks)).toEqual([-2, -1, 0, 1, 2, 3]);
  expect(found.map(({ spacingMm }) => spacingMm)).toEqual([300, 150, 100, 75, 60, 50]);
  expect(found.map(({ girthsMm }) => girthsMm)).toEqual([
    [0, 100, 400],
    [0, 100, 250, 400],
    GIRTHS_MM,
    [0, 100, 175, 250, 325, 400],
    [0, 100, 160, 220, 280, 340, 400],
    [0, 100, 150, 200, 250, 300, 350, 400],
  ]);
});

test('each with the pace of its slowest interval: words of a second, a reaction, the turn', () => {
  for (const { spacingMm, limitMPerMin } of respacings(ripOf(), 2, 5))
    expectClose(limitMPerMin, mPerMin(spacingMm, 1 + 0.35 + spacingMm / 50 / 1.4), 1e-9, 'm/min');
});

test('no closer than a printed code has room, unless they stand so close already', () => {
  const spacings = (fromMark: number, toMark: number, girthsMm: readonly number[]) =>
    respacings(ripOf({ girthsMm }), fromMark, toMark).map(({ spacingMm }) => spacingMm);
  expect(spacings(1, 2, [0, 80])).toEqual([80, 40]);
  expect(spacings(1, 2, [0, 79])).toEqual([79]);
  expect(spacings(1, 3, [0, 30, 60])).toEqual([60, 30]);
});

test('none that keeps to the bevel worse than a step of the readout, or than the marks of now', () => {
  const straysDeg = (girthsMm: readonly number[]): number => ({ 2: 1.2, 3: 0.5, 4: 0.8 })[girthsMm.length] ?? 0.1;
  // Two marks stray by 1.2, three by half a step, as now, which is allowed; four by 0.8, five by 0.1.
  expect(respacings(ripOf({ straysDeg }), 2, 4).map(({ moreMarks }) => moreMarks)).toEqual([0, 2]);
  const now = (girths: readonly number[]): number => (girths.length === 3 ? 0.5 : 0.6);
  expect(respacings(ripOf({ straysDeg: now }), 2, 4).map(({ moreMarks }) => moreMarks)).toEqual([0]);
});

test('the looseness of the wheel is turned through where the bevel turns back, whichever end leads', () => {
  const saw = { ...ripOf().saw, backlashTurns: 0.35 };
  const looseS = 0.35 / 0.7;
  const limitOf = (headLeads: boolean): number => {
    const rip = ripOf({ saw }, true);
    const turned = headLeads ? { ...rip, headLeads, marks: rip.marks.toReversed() } : rip;
    return respacings(turned, 3, 5).find(({ moreMarks }) => moreMarks === 0)?.limitMPerMin ?? Number.NaN;
  };
  // From the heel the way changes at mark 3, from the head it never does between 5 and 3.
  expectClose(limitOf(false), mPerMin(100, 1 + 0.35 + 2 / 1.4 + looseS), 1e-9, 'm/min');
  expectClose(limitOf(true), mPerMin(100, 1 + 0.35 + 2 / 1.4), 1e-9, 'm/min');
});

test('of a long stretch not every count is tried, of a very long one fewer still', () => {
  const even = (count: number): number[] => Array.from({ length: count + 1 }, (_, i) => 50 * i);
  const tried = (now: number): readonly number[] =>
    respacings(ripOf({ girthsMm: even(now) }), 1, now + 1).map(({ moreMarks }) => moreMarks + now);
  expect(tried(60).slice(0, 4)).toEqual([1, 4, 7, 10]);
  expect(tried(101).slice(0, 3)).toEqual([1, 22, 43]);
});

test('none where the two are one', () => {
  expect(respacings(ripOf(), 3, 3)).toEqual([]);
});
