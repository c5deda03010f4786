import { expect, it } from 'vitest';
import { LONGEST_DELAY_MS, toldDelayMs } from '../../../server/core/hearing/earLimits.ts';

it('a delay is told in steps in which it rests, never below nothing and never past what the server takes', () => {
  expect([0, 2.4, 2.6, 181].map(toldDelayMs)).toEqual([0, 0, 5, 180]);
  expect([-30, LONGEST_DELAY_MS + 1, 1e9].map(toldDelayMs)).toEqual([0, LONGEST_DELAY_MS, LONGEST_DELAY_MS]);
});
