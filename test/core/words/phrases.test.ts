import { expect, test } from 'vitest';
import { callText } from '../../../server/core/words/callText.ts';
import { grammarOf, LANGUAGES } from '../../../server/core/words/languages.ts';
import { phrases, phrasesFor, phrasesOfRun } from '../../../server/core/words/phrases.ts';
import type { VoiceChoice } from '../../../server/core/words/voiceChoice.ts';

const stations = [
  { mark: 1, callDeg: 4 },
  { mark: 2, callDeg: 6.5 },
  { mark: 3, callDeg: 4 },
  { mark: 4, callDeg: 2 },
];
const saidIn = (voice: VoiceChoice, order = stations) =>
  phrasesOfRun({
    stations: order,
    callTexts: order.map(({ mark, callDeg }) => callText({ mark, deg: callDeg }, voice)),
  });

test('each angle once, in the order of the marks, then the fixed phrases', () => {
  const said = saidIn({ language: 'en', form: 'angle', numbers: 'natural' });
  expect(said).toEqual([
    { text: 'four', deg: 4 },
    { text: 'six and a half', deg: 6.5, mark: 2 },
    { text: 'two', deg: 2, mark: 4 },
    ...Object.values(phrases).map((text) => ({ text })),
  ]);
});

test('with its mark, every call is its own', () => {
  const said = saidIn({ language: 'en', form: 'mark and angle', numbers: 'digits' });
  expect(said.slice(0, 4).map(({ mark }) => mark)).toEqual([1, 2, 3, 4]);
  expect(new Set(said.map(({ text }) => text)).size).toBe(said.length);
});

test('the marks from the heel, whichever end leads', () => {
  const voice = { language: 'en', form: 'angle', numbers: 'natural' } as const;
  expect(saidIn(voice, stations.toReversed())).toEqual(saidIn(voice));
});

test('short forms and figures between the marks come after the marks, and belong to no mark', () => {
  const said = phrasesOfRun({
    stations,
    callTexts: ['mark one, four', 'mark two, six and a half', 'mark three, four', 'mark four, two'],
    shortTexts: ['four', 'six and a half', 'four', 'two'],
    steps: [{ text: 'five', callDeg: 5 }],
  });
  expect(said.slice(4, 8)).toEqual([
    { text: 'four', deg: 4 },
    { text: 'six and a half', deg: 6.5 },
    { text: 'two', deg: 2 },
    { text: 'five', deg: 5 },
  ]);
});

test('a wording that was said already is not said twice, whichever form it is', () => {
  const said = phrasesOfRun({
    stations,
    callTexts: ['four point zero', 'six point five', 'four point zero', 'two point zero'],
    shortestTexts: ['four', 'six point five', 'four', 'two'],
  });
  expect(said.slice(0, 5).map(({ text }) => text)).toEqual([
    'four point zero',
    'six point five',
    'two point zero',
    'four',
    'two',
  ]);
});

test('to stop the feed always means to hold the tilt, and the order comes first', () => {
  expect(phrases.stopFeed).toMatch(/^stop feed, hold tilt$/);
  expect(phrases.signalLost).toMatch(
    /^stop feed, hold tilt, .*switch off, wait until the blade stands, never back out$/,
  );
  const german = phrasesFor({ language: 'de' });
  expect(german.stopFeed).toMatch(/^stopp Vorschub, Neigung bleibt$/);
  expect(german.signalLost).toMatch(
    /^stopp Vorschub, Neigung bleibt, .*Säge aus, warten bis das Blatt steht, Holz bleibt im Schnitt$/,
  );
});

test.each(LANGUAGES)('no word of the shop or of the bevel that could be taken for another: %s', (language) => {
  const { banned, turns } = grammarOf(language);
  const words = [...Object.values(phrasesFor({ language })), turns.more, turns.less].flatMap((text) =>
    text.toLowerCase().split(/[ ,]+/),
  );
  const shop = banned.flatMap((ban) => ban.words).filter((word) => word !== 'never');
  expect(words.filter((word) => shop.includes(word))).toEqual([]);
});

test.each(LANGUAGES)('one word to stop by, wherever something is to stop: %s', (language) => {
  const { stopFeed, signalLost, pulledBack } = phrasesFor({ language });
  const [stop] = stopFeed.split(',');
  for (const order of [signalLost, pulledBack]) expect(order.split(',')[0]).toBe(stop);
});

test('a run says the phrases of its voice', () => {
  const own = phrasesFor({ language: 'de', words: { easeFeed: 'gemächlich' } });
  const said = phrasesOfRun({ stations: [], callTexts: [], phrases: own }).map(({ text }) => text);
  expect(said).toEqual(Object.values(own));
  expect(said).toContain('gemächlich');
});
