/** What each figure could have been meant to be. Common practice, no source: the slips that turn up when a table is copied. */
import { describe, expect, test } from 'vitest';
import { penSlips } from '../../../server/core/hull/slipCauses.ts';
import { expectClose } from '../../kit/close.ts';

/** What is said of the figure that it could have been, once for each slip that leads there. */
const causes = (text: string, foundMm: number, meantMm: number): readonly string[] => [
  ...new Set(
    penSlips(text, foundMm)
      .filter(({ mm }) => Math.abs(mm - meantMm) < 1e-6)
      .map(({ what }) => what),
  ),
];

describe('a decimal figure', () => {
  test.each([
    [1254, 'one figure is wrong'],
    [1834, 'one figure is wrong'],
    [2134, 'two figures changed places'],
    [1243, 'two figures changed places'],
    [134, 'a figure too many'],
    [123, 'a figure too many'],
    [12_934, 'a figure is missing'],
    [91_234, 'a figure is missing'],
    [12_347, 'a figure is missing'],
    [12.34, 'the point is misplaced'],
    [12_340, 'the point is misplaced'],
  ])('1234 may have been %s: %s', (meantMm, what) => {
    expect(causes('1234', 1234, meantMm)).toContain(what);
  });

  test('may not have been what only two slips lead to', () => {
    expect(causes('1234', 1234, 1256)).toEqual([]);
    expect(causes('1234', 1234, 3214)).toEqual([]);
  });

  test('is read in its own unit and with its own sign', () => {
    // Metres; and a height below the base line.
    expect(causes('1.234', 1234, 1334)).toContain('one figure is wrong');
    expect(causes('1.234', 1234, 2134)).toEqual([]);
    expect(causes('-85', -85, -58)).toEqual(['two figures changed places']);
  });

  test('that is none, or nothing, could have been anything', () => {
    expect(penSlips('on deck', 0)).toEqual([]);
    expect(penSlips('0', 0)).toEqual([]);
  });
});

describe('feet, inches and eighths', () => {
  /** 3-4-2: three feet, four inches, two eighths. */
  const FOUND_MM = 3 * 304.8 + 4 * 25.4 + 2 * 3.175;

  test.each([
    ['the feet are wrong', 304.8, 9],
    ['the inches are wrong', 25.4, 11],
    ['the eighths are wrong', 3.175, 7],
  ])('%s by one and up to as many as fit into the next', (what, partMm, most) => {
    const by = penSlips('3-4-2', FOUND_MM)
      .filter((slip) => slip.what === what)
      .map(({ mm }) => (mm - FOUND_MM) / partMm)
      .toSorted((a, b) => a - b);
    expect(by).toHaveLength(2 * most);
    expectClose(by[0] ?? Number.NaN, -most, 1e-9, 'parts');
    expectClose(by.at(-1) ?? Number.NaN, most, 1e-9, 'parts');
    expect(by.map(Math.round)).not.toContain(0);
  });
});
