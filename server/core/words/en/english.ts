import type { Grammar } from '../grammar.ts';
import { NUMERALS } from './englishCardinal.ts';
import { MEASURED } from './englishMeasuredWords.ts';
import { figure, mark } from './englishNumbers.ts';
import { spelling } from './englishSpelling.ts';

export const english: Grammar = {
  name: 'English',
  figure,
  minus: 'minus',
  mark,
  /**
   * Each begins with what is to be done, because the rest may drown. No phrase holds an order that turns dangerous when its
   * "not" drowns, but for "never back out", which comes last, after "wait until the blade stands". "Stop" is never without
   * "feed": alone, the recogniser took it for "more" in noise as loud as the voice, and what began so for a figure.
   */
  phrases: {
    stopFeed: 'stop feed, hold tilt',
    signalLost: 'stop feed, hold tilt, signal lost, switch off, wait until the blade stands, never back out',
    pulledBack: 'stop feed, wood still, hold tilt, switch off',
    easeFeed: 'feed slower',
    /** The wood behind the last mark is still to be sawn. */
    runDone: 'last bevel, hold tilt to the end',
    soundTest: 'sound test, one two three',
  },
  turns: { more: 'more', less: 'less' },
  letters: 'A-Za-z',
  figureWords: [...NUMERALS, 'point', 'decimal', 'half', 'quarter', 'quarters', 'minus', 'mark'],
  banned: [
    { why: 'it is also said of glue and of saw teeth', words: ['set', 'sets', 'setting', 'cure', 'kerf'] },
    {
      why: 'it is also said of bevels, where an under bevel that grows closes',
      words: ['open', 'opens', 'opened', 'opening', 'close', 'closes', 'closed', 'closing', 'shut'],
    },
    {
      why: 'an order turns round when this word drowns',
      words: ['not', 'no', 'never', 'without', "don't", 'dont', "won't", "can't", 'cannot'],
    },
    {
      why: 'it is said all day in a shop, by anyone and for anything',
      words: ['ok', 'okay', 'right', 'ready', 'go', 'clear', 'standing', 'under', 'feeding', 'push'],
    },
  ],
  spelling,
  measured: MEASURED,
  parts: (word) => [word],
};
