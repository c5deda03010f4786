import { expect, test } from 'vitest';
import { FIGURE_OF_PARTS, unbrokenWords } from '../../../server/core/figures/inches.ts';

test('a line never ends between a whole number and its fraction, or between a number and its unit', () => {
  expect(unbrokenWords('lies 7 7/8 in from the end')).toEqual(['lies', '7 7/8 in', 'from', 'the', 'end']);
  expect(unbrokenWords('0.65 m/min: slower than 3 m/min.')).toEqual(['0.65 m/min:', 'slower', 'than', '3 m/min.']);
  expect(unbrokenWords('22.3 mm x 52 mm')).toEqual(['22.3 mm', 'x', '52 mm']);
  expect(unbrokenWords('sheet 2 inside 13 marks')).toEqual(['sheet', '2', 'inside', '13', 'marks']);
});

test('figures of several parts are found in a sentence', () => {
  const sentence = 'dressed 0-0-5++, 25 mm apart, fed at 9.84 ft/min to mark 13 in 7 1/2 in';
  expect(sentence.match(FIGURE_OF_PARTS)).toEqual(['0-0-5++', '25 mm', '9.84 ft/min', '13 in', '7 1/2 in']);
});
