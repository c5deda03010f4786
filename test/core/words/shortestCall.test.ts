import fc from 'fast-check';
import { expect, test } from 'vitest';
import { callText } from '../../../server/core/words/callText.ts';
import { LANGUAGES } from '../../../server/core/words/languages.ts';
import { shortestCall } from '../../../server/core/words/shortestCall.ts';
import { spokenLengthS } from '../../../server/core/words/spokenLength.ts';

test('a half is said shorter in natural numbers, a whole degree by its one word', () => {
  expect(shortestCall({ mark: 7, deg: 12.5 }, { language: 'en' }).text).toBe('twelve and a half');
  expect(shortestCall({ mark: 7, deg: 7 }, { language: 'en' }).text).toBe('seven');
});

test('no form of the angle, in any language, is shorter', () => {
  const calls = fc.record({
    mark: fc.integer({ min: 1, max: 2000 }),
    deg: fc.integer({ min: -180, max: 180 }).map((n) => n / 4),
  });
  const forms = fc.constantFrom('natural' as const, 'digits' as const, 'two digits' as const);
  fc.assert(
    fc.property(calls, fc.constantFrom(...LANGUAGES), forms, (called, language, numbers) => {
      const { text, lastsS } = shortestCall(called, { language });
      expect(lastsS).toBe(spokenLengthS(text, language));
      const other = callText(called, { language, form: 'angle', numbers });
      expect(lastsS).toBeLessThanOrEqual(spokenLengthS(other, language));
    }),
  );
});
