import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { feedText, rateText, slowerFeedMPerMin, typedFeedMPerMin } from '../../../server/core/figures/feeds.ts';
import { fineText, lengthFigure, lengthText, placeFigure, placeText } from '../../../server/core/figures/lengths.ts';
import { NOTATIONS, type Notation, unitsOf } from '../../../server/core/figures/notation.ts';
import { rounded, stepsOf } from '../../../server/core/figures/rounding.ts';
import { readLength, readLengthCell } from '../../../server/wire/length/parseLength.ts';
import { holds } from '../../kit/holds.ts';

const IN = 25.4;
/** Half of it is the most that a figure to the nearest is off. */
const STEP_MM: Readonly<Record<Notation, number>> = {
  mm: 0.1,
  'decimal inches': IN / 100,
  'inches and fractions': IN / 32,
  'feet-inches-eighths': IN / 32,
};
const someNotation = fc.constantFrom(...NOTATIONS);
const someLength = fc.double({ min: -99_000, max: 99_000, noNaN: true });
const mmOf = (text: string, notation: Notation): number => {
  const reading = readLength(text, unitsOf(notation));
  if (reading.mm === undefined) throw new Error(`"${text}" is not read: ${reading.wanted}`);
  return reading.mm;
};

describe('a length', () => {
  test.each([
    [1206.5, 'mm', '1206.5 mm'],
    [60, 'mm', '60 mm'],
    [50.5 * IN, 'decimal inches', '50.5 in'],
    [50.5 * IN, 'inches and fractions', '50 1/2 in'],
    [50.5 * IN, 'feet-inches-eighths', '4-2-4'],
    [27.5625 * IN, 'feet-inches-eighths', '2-3-4+'],
    [27.53125 * IN, 'feet-inches-eighths', '2-3-4+-'],
    [27.59375 * IN, 'feet-inches-eighths', '2-3-4++'],
    [-IN / 8, 'feet-inches-eighths', '-0-0-1'],
    [3.3, 'feet-inches-eighths', '0-0-1'],
    [0, 'feet-inches-eighths', '0-0-0'],
    // Under a sixteenth, and no whole thirty-second: it is what is off, or left.
    [0.27, 'feet-inches-eighths', '0.011 in'],
    [0.27, 'inches and fractions', '0.011 in'],
    [IN / 32, 'inches and fractions', '1/32 in'],
    [2.4, 'decimal inches', '0.094 in'],
    [-0.01, 'mm', '0 mm'],
  ] as const)('%d mm in %s is %s', (mm, notation, text) => expect(lengthText(mm, notation)).toBe(text));

  test('that is written is read back within half a step (property)', () => {
    holds(
      fc.property(fc.oneof(someLength, fc.double({ min: -80, max: 80, noNaN: true })), someNotation, (mm, notation) => {
        const most = STEP_MM[notation] / 2 + 1e-6;
        expect(Math.abs(mmOf(lengthText(mm, notation), notation) - mm)).toBeLessThanOrEqual(most);
        expect(Math.abs(mmOf(fineText(mm, notation), notation) - mm)).toBeLessThanOrEqual(most);
        const place = notation === 'mm' ? 0.5 : most;
        expect(Math.abs(mmOf(placeText(mm, notation), notation) - mm)).toBeLessThanOrEqual(place);
        // In a table and in a field a figure stands without its unit.
        const cell = (text: string): number => readLengthCell(text, unitsOf(notation)).mm ?? Number.NaN;
        expect(Math.abs(cell(lengthFigure(mm, notation)) - mm)).toBeLessThanOrEqual(most);
        expect(Math.abs(cell(placeFigure(mm, notation)) - mm)).toBeLessThanOrEqual(place);
      }),
    );
  });

  test('that is needed is never told as less, one that is allowed never as more (property)', () => {
    holds(
      fc.property(fc.double({ min: 0.01, max: 99_000, noNaN: true }), someNotation, (mm, notation) => {
        const [least, most] = (['at least', 'at most'] as const).map((how) =>
          mmOf(lengthText(mm, notation, how), notation),
        );
        expect(least).toBeGreaterThanOrEqual(mm - 1e-4);
        expect(least).toBeLessThanOrEqual(mm + STEP_MM[notation] + 1e-4);
        expect(most).toBeLessThanOrEqual(mm + 1e-4);
        expect(most).toBeGreaterThanOrEqual(mm - STEP_MM[notation] - 1e-4);
        expect(mmOf(lengthText(mm, notation, 'about, at least'), notation)).toBeGreaterThanOrEqual(mm - 1e-4);
      }),
    );
  });

  test.each([
    [908.2, 'mm', 'about', '908 mm'],
    [69_904.7, 'mm', 'about', '69900 mm'],
    [10_010, 'mm', 'about, at least', '10100 mm'],
    [190.2, 'mm', 'about, at least', '191 mm'],
    [908.2, 'decimal inches', 'about', '35.8 in'],
    [69_904.7, 'decimal inches', 'about', '2750 in'],
    [908.2, 'inches and fractions', 'about', '35 3/4 in'],
    [889, 'inches and fractions', 'about', '35 in'],
    [69_904.7, 'inches and fractions', 'about', '2750 in'],
    [908.2, 'feet-inches-eighths', 'about', '2-11-6'],
    [69_904.7, 'feet-inches-eighths', 'about', '229-2-0'],
  ] as const)('%d mm as a radius in %s, %s: %s', (mm, notation, how, text) =>
    expect(lengthText(mm, notation, how)).toBe(text),
  );
});

describe('a feed', () => {
  test('is told by the metre or by the foot, and as a limit never as more than it is', () => {
    expect(feedText(3, 'mm')).toBe('3 m/min');
    expect(feedText(3.519, 'mm')).toBe('3.51 m/min');
    for (const notation of ['decimal inches', 'inches and fractions', 'feet-inches-eighths'] as const) {
      expect(feedText(3.048, notation)).toBe('10 ft/min');
      expect(feedText(3.2, notation)).toBe('10.49 ft/min');
      expect(rateText(10, notation)).toBe('3.05° a foot');
    }
    expect(rateText(10, 'mm')).toBe('10.0° a metre');
  });

  test('that is typed is the one that is shown (property)', () => {
    holds(
      fc.property(fc.integer({ min: 1, max: 6000 }), someNotation, (hundredths, notation) => {
        const typed = hundredths / 100;
        expect(feedText(typedFeedMPerMin(typed, notation), notation, 'nearest').split(' ')[0]).toBe(`${typed}`);
        expect(slowerFeedMPerMin(typed + 0.2, notation)).toBeLessThanOrEqual(typed + 0.2 + 1e-9);
      }),
    );
  });
});

test('a hair of rounding costs no step, and more than a hair one', () => {
  expect([stepsOf(3 + 1e-9, 'at least'), stepsOf(3.01, 'at least'), stepsOf(3 - 1e-9, 'at most')]).toEqual([3, 4, 3]);
  expect([stepsOf(2.99, 'at most'), rounded(0.1 + 0.2, 1, 'at least'), rounded(2.99, 1, 'at most')]).toEqual([
    2, 0.3, 2.9,
  ]);
});
