import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  durationFigure,
  durationText,
  fineSecondsText,
  msText,
  secondsText,
} from '../../../server/core/figures/durations.ts';
import { holds } from '../../kit/holds.ts';

test('seconds are told as finely as they matter', () => {
  expect([secondsText(1.25), secondsText(2), fineSecondsText(0.4), msText(119.6)]).toEqual([
    '1.3 s',
    '2.0 s',
    '0.40 s',
    '120 ms',
  ]);
});

test.each([
  [0.4, '0 s', '0 s'],
  [59.4, '59 s', '59 s'],
  [59.5, '1 min 0 s', '1 min 00 s'],
  [185, '3 min 5 s', '3 min 05 s'],
  [3725, '62 min 5 s', '62 min 05 s'],
])('%d s is %s in a sentence, %s in a column', (seconds, text, figure) => {
  expect(durationText(seconds)).toBe(text);
  expect(durationFigure(seconds)).toBe(figure);
});

test('a duration is right to half a second (property)', () => {
  holds(
    fc.property(fc.double({ min: 0, max: 20_000, noNaN: true }), (seconds) => {
      for (const written of [durationText(seconds), durationFigure(seconds)]) {
        const [, minutes = '0', rest = ''] = /^(?:(\d+) min )?(\d+) s$/.exec(written) ?? [];
        expect(Number(rest)).toBeLessThan(60);
        expect(Math.abs(60 * Number(minutes) + Number(rest) - seconds)).toBeLessThanOrEqual(0.5);
      }
    }),
  );
});
