import fc from 'fast-check';
import { expect, test } from 'vitest';
import { callInTime, shortestCall } from '../../../server/core/words/callInTime.ts';
import { callText } from '../../../server/core/words/callText.ts';
import { LANGUAGES } from '../../../server/core/words/languages.ts';

const called = { mark: 7, deg: 12.5 };
const voice = { language: 'en', form: 'mark and angle', numbers: 'two digits' } as const;

test('as the yard has chosen, then the angle alone, then the shortest there is, then nothing fits', () => {
  const texts = [9, 1.5, 1, 0.1].map((s) => callInTime(called, voice, s));
  expect(texts.map(({ text }) => text)).toEqual([
    'mark seven, one two decimal five',
    'one two decimal five',
    'twelve and a half',
    'twelve and a half',
  ]);
  expect(texts.map(({ fits }) => fits)).toEqual([true, true, true, false]);
});

test('whatever the time: it fits where anything fits, says the same angle, and more time never says less of the choice', () => {
  const choice = fc.record({
    language: fc.constantFrom(...LANGUAGES),
    form: fc.constantFrom('angle' as const, 'mark and angle' as const),
    numbers: fc.constantFrom('natural' as const, 'digits' as const, 'two digits' as const),
  });
  const calls = fc.record({
    mark: fc.integer({ min: 1, max: 2000 }),
    deg: fc.integer({ min: -180, max: 180 }).map((n) => n / 4),
  });
  const time = fc.double({ min: 0, max: 5, noNaN: true });
  fc.assert(
    fc.property(calls, choice, time, (one, wanted, s) => {
      const chosen = callInTime(one, wanted, s);
      const least = shortestCall(one, wanted);
      expect(chosen.fits).toBe(least.lastsS <= s);
      if (chosen.fits) expect(chosen.lastsS).toBeLessThanOrEqual(s);
      expect(chosen.text).toBe(callText(one, { ...wanted, form: chosen.form, numbers: chosen.numbers }));
      const own = callInTime(one, wanted, 99);
      expect(own.text).toBe(callText(one, wanted));
      if (own.lastsS <= s) expect(chosen).toEqual(own);
    }),
  );
});
