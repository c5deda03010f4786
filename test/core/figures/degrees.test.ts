import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  aboutDegText,
  degFigure,
  degText,
  errorFigure,
  hundredthsDegText,
  inReadoutDecimals,
  measuredDegText,
  readoutFigure,
  roomText,
  signedDegFigure,
  signedDegText,
  tenthsDegText,
} from '../../../server/core/figures/degrees.ts';
import { holds } from '../../kit/holds.ts';

test('a bevel in a column and in a sentence', () => {
  expect([degFigure(12), degFigure(-0.001), degFigure(7.25, 1)]).toEqual(['12.00', '0.00', '7.3']);
  expect([signedDegFigure(12.345), signedDegFigure(-3), signedDegFigure(0.001)]).toEqual(['+12.35', '-3.00', '0.00']);
  expect([degText(12, 1), degText(-12.34, 1), degText(-0.01, 1)]).toEqual(['12°', '-12.3°', '0°']);
  expect([signedDegText(0.5, 2), signedDegText(-0.5, 2), signedDegText(0.001, 2)]).toEqual(['+0.5°', '-0.5°', '0°']);
  expect([tenthsDegText(12), hundredthsDegText(0.1), errorFigure(0.1)]).toEqual(['12.0°', '0.10°', '±0.10']);
});

test('how fine it is told goes by what it is', () => {
  expect([measuredDegText(0.126), measuredDegText(-1.26)]).toEqual(['0.13°', '-1.3°']);
  expect([aboutDegText(9.26), aboutDegText(-12.6)]).toEqual(['9.3°', '-13°']);
  expect([roomText(0.09), roomText(0.1), roomText(0.299), roomText(3)]).toEqual([
    'less than 0.1°',
    '0.1°',
    '0.2°',
    '3.0°',
  ]);
});

describe('a figure of the readout', () => {
  test.each([
    [12.5, 0.5, '12.5'],
    [12, 1, '12.0'],
    [12.24, 0.25, '12.25'],
    [12.25, 0.5, '12.5'],
    [-12.25, 0.5, '-12.5'],
    [0.15, 0.1, '0.2'],
    [-0.04, 0.1, '0.0'],
  ])('at %d degrees with steps of %d is %s', (deg, step, figure) => expect(readoutFigure(deg, step)).toBe(figure));

  test('that may lie between its steps is not moved to one', () => {
    expect([inReadoutDecimals(12.3, 0.5), inReadoutDecimals(12.5, 1), inReadoutDecimals(12, 0.05)]).toEqual([
      '12.3',
      '12.5',
      '12.00',
    ]);
  });

  test('is a step of it, the same on both hands (property)', () => {
    const steps = fc.constantFrom(1, 0.5, 0.25, 0.2, 0.1, 0.05, 0.01);
    holds(
      fc.property(fc.double({ min: -60, max: 60, noNaN: true }), steps, (deg, step) => {
        const figure = readoutFigure(deg, step);
        expect(figure).toMatch(/^-?\d+\.\d+$/);
        expect(Math.abs(Number(figure) / step - Math.round(Number(figure) / step))).toBeLessThan(1e-6);
        expect(Math.abs(Number(figure) - deg)).toBeLessThanOrEqual(step / 2 + 1e-6);
        expect(readoutFigure(-deg, step).replace('-', '')).toBe(figure.replace('-', ''));
      }),
    );
  });
});
