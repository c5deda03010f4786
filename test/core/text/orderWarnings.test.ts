import { expect, test } from 'vitest';
import { orderWarnings } from '../../../server/core/text/orderWarnings.ts';
import { LANGUAGES } from '../../../server/core/words/languages.ts';
import { ORDERS, PHRASE_NAMES } from '../../../server/core/words/phraseNames.ts';

const voice = { language: 'en', form: 'angle', numbers: 'digits' } as const;

test('an order in other words is warned of, with both wordings and what it must make people do', () => {
  const [warning, ...more] = orderWarnings({
    ...voice,
    words: { stopFeed: 'whoa, keep the angle', runDone: 'through' },
  });
  expect(more).toEqual([]);
  expect(warning?.code).toBe('own-order');
  expect(warning?.message).toBe(
    'The order "stop feed, hold tilt" is said in the yard\'s own words: "whoa, keep the angle". Everyone at the saw must know ' +
      'them, and they must mean: stop the feed and hold the tilt. Say them to the crew before the run.',
  );
});

test.each(LANGUAGES)('one for each order and for nothing else: %s', (language) => {
  const words = Object.fromEntries(PHRASE_NAMES.map((name) => [name, `other words of ${name}`]));
  expect(orderWarnings({ ...voice, language, words })).toHaveLength(ORDERS.length);
  expect(orderWarnings({ ...voice, language })).toEqual([]);
});
