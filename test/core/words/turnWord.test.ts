import fc from 'fast-check';
import { expect, test } from 'vitest';
import { turnWord } from '../../../server/core/words/turnWord.ts';

test.each([
  [3, 4, 'more'],
  [4, 3, 'less'],
  [4, 4, 'same'],
  [4, 4.0000001, 'same'],
  [0, 2, 'more'],
  [0, -2, 'more'],
  [-2, -3, 'more'],
  [-3, -2, 'less'],
  [-2, 0, 'less'],
  [-1, 2, 'less'],
  [1, -1, 'less'],
] as const)('from %d to %d is %s', (from, to, word) => {
  expect(turnWord(from, to)).toBe(word);
});

test('both sides of square are alike, and only standing still is the same', () => {
  const tenths = fc.integer({ min: -450, max: 450 }).map((n) => n / 10);
  fc.assert(
    fc.property(tenths, tenths, (from, to) => {
      expect(turnWord(-from, -to)).toBe(turnWord(from, to));
      expect(turnWord(from, to) === 'same').toBe(from === to);
    }),
  );
});
