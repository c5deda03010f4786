import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  evenDeg,
  evenPerDeg,
  looseDeg,
  tiltOfEvenDeg,
  turnedDeg,
  wayTo,
  wheelAlong,
} from '../../../server/core/saw/handwheel.ts';
import { holds } from '../../kit/holds.ts';

/** A screw pushes an arm: a degree a turn below five turns, three above. */
const uneven = {
  degreesPerTurn: 2,
  turnsTable: [
    [0, 0],
    [5, 5],
    [10, 20],
  ],
  backlashTurns: 0.25,
} as const;
const rising = fc
  .array(fc.tuple(fc.double({ min: 0.1, max: 5, noNaN: true }), fc.double({ min: 0.1, max: 9, noNaN: true })), {
    minLength: 2,
    maxLength: 12,
  })
  .map((steps) => {
    let [turns, tilt] = [-3, -5];
    return steps.map(([dTurns, dTilt]) => {
      turns += dTurns;
      tilt += dTilt;
      return [turns, tilt] as const;
    });
  });

describe('a handwheel whose turns are not worth the same', () => {
  test('counts the turns by its table: 5 to 14 degrees are three turns, six even degrees', () => {
    expect(evenDeg(uneven, 14) - evenDeg(uneven, 5)).toBeCloseTo(6, 12);
    expect(turnedDeg(uneven, 5, 14, 1)).toBeCloseTo(6, 12);
    expect(evenPerDeg(uneven, 3)).toBeCloseTo(2, 12);
    expect(evenPerDeg(uneven, 12)).toBeCloseTo(2 / 3, 12);
    // Beyond its ends the end rows' line goes on.
    expect(evenDeg(uneven, 26)).toBeCloseTo(2 * 12, 12);
    expect(evenDeg(uneven, -2)).toBeCloseTo(2 * -2, 12);
  });

  test('without a table a degree is a degree to the last digit', () => {
    holds(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: 0.1, max: 9, noNaN: true }),
        (deg, degreesPerTurn) => {
          expect(evenDeg({ degreesPerTurn }, deg)).toBe(deg);
          expect(tiltOfEvenDeg({ degreesPerTurn }, deg)).toBe(deg);
          expect(evenPerDeg({ degreesPerTurn }, deg)).toBe(1);
          expect(wheelAlong({ degreesPerTurn }, [deg, 2 * deg], 0)).toEqual([deg, 2 * deg]);
        },
      ),
    );
  });

  test('there and back is the same tilt, and a table of even turns is no table', () => {
    holds(
      fc.property(rising, fc.double({ min: -30, max: 60, noNaN: true }), (turnsTable, deg) => {
        const wheel = { degreesPerTurn: 2, turnsTable };
        expect(tiltOfEvenDeg(wheel, evenDeg(wheel, deg))).toBeCloseTo(deg, 6);
        const even = { degreesPerTurn: 2, turnsTable: turnsTable.map(([turns]) => [turns, 2 * turns] as const) };
        expect(evenDeg(even, deg)).toBeCloseTo(deg, 6);
        expect(evenDeg(wheel, 0)).toBeCloseTo(0, 9);
      }),
    );
  });

  test('is turned through its looseness when the way changes, or is not known', () => {
    expect(looseDeg(uneven)).toBe(0.5);
    expect(turnedDeg(uneven, 5, 14, -1)).toBeCloseTo(6.5, 12);
    expect(turnedDeg(uneven, 5, 14, 0)).toBeCloseTo(6.5, 12);
    expect(turnedDeg(uneven, 14, 14, -1)).toBe(0);
  });

  /** Second computation: a nut between two faces, pushed by whichever it lies against. */
  function pushed(turnsTable: readonly (readonly [number, number])[], tilts: readonly number[], loose: number): number {
    const turnsOf = (deg: number): number => {
      for (let i = 1; ; i += 1) {
        const [a, b] = [turnsTable[i - 1], turnsTable[i]];
        if (a === undefined || b === undefined) throw new Error('two rows');
        if (deg <= b[1] || i === turnsTable.length - 1) return a[0] + ((deg - a[1]) * (b[0] - a[0])) / (b[1] - a[1]);
      }
    };
    let nut = turnsOf(tilts[0] ?? 0);
    // Come to the first tilt upward: the nut lies on the lower face.
    let wheel = nut + loose;
    let turned = 0;
    for (const tilt of tilts.slice(1)) {
      const to = turnsOf(tilt);
      // Up, the wheel pushes with its lower face, at its own place less the looseness; down, with its upper face.
      const wheelTo = to > nut ? to + loose : to < nut ? to : wheel;
      turned += Math.abs(wheelTo - wheel);
      [nut, wheel] = [to, wheelTo];
    }
    return turned;
  }

  test('differs between two places by all that is turned between them: as a nut that is pushed from either side', () => {
    holds(
      fc.property(
        rising,
        fc.array(
          fc.integer({ min: -20, max: 80 }).map((half) => half / 2),
          { minLength: 1, maxLength: 12 },
        ),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (turnsTable, tilts, backlashTurns) => {
          const wheel = { degreesPerTurn: 3, turnsTable, backlashTurns };
          const along = wheelAlong(wheel, tilts, 1);
          const turned = along.slice(1).reduce((sum, deg, i) => sum + Math.abs(deg - (along[i] ?? 0)), 0) / 3;
          expect(turned).toBeCloseTo(pushed(turnsTable, tilts, backlashTurns), 6);
          let steps = 0;
          for (let i = 1; i < tilts.length; i += 1)
            steps +=
              turnedDeg(wheel, tilts[i - 1] ?? 0, tilts[i] ?? 0, i === 1 ? 1 : wayTo([-1000, ...tilts.slice(0, i)])) /
              3;
          expect(steps).toBeCloseTo(turned, 6);
        },
      ),
    );
  });
});
