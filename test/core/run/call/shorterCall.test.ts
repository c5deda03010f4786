import { expect, test } from 'vitest';
import { withFewerWords } from '../../../../server/core/run/call/shorterCall.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

const setup = smallSetup({ callTexts: ['eight point zero', 'ten', 'one two point zero', 'eleven point zero', 'nine'] });

test('the shortest words of any form, where they save enough to be worth another way of hearing', () => {
  expect(withFewerWords(setup, { language: 'en' }).shortestTexts).toEqual(['eight', 'ten', 'twelve', 'eleven', 'nine']);
});

test('nothing else of the setup changes, and in German it is German', () => {
  const { shortestTexts, ...rest } = withFewerWords(setup, { language: 'de' });
  expect(rest).toEqual(setup);
  expect(shortestTexts?.[2]).toBe('zwölf');
});
