import { expect, test } from 'vitest';
import { hundredthsFigure, percentText, wholeFigure } from '../../../server/core/figures/shares.ts';
import { turnsPerSText, turnsText } from '../../../server/core/figures/turns.ts';

test('times, parts and loudness', () => {
  expect([wholeFigure(30.5), wholeFigure(84.4), wholeFigure(-0.2)]).toEqual(['31', '84', '0']);
  expect([hundredthsFigure(0.7), hundredthsFigure(1.005), hundredthsFigure(0)]).toEqual(['0.70', '1.00', '0.00']);
  expect([percentText(0.99), percentText(1), percentText(12.5)]).toEqual(['under 1\u00a0%', '1\u00a0%', '13\u00a0%']);
});

test('turns of the wheel', () => {
  expect([0.25, 0.5, 1, 2, 0.333].map(turnsText)).toEqual([
    'a quarter turn',
    'half a turn',
    'one turn',
    '2 turns',
    '0.33 turns',
  ]);
  expect(turnsPerSText(0.5)).toBe('0.50 turns a second');
});
