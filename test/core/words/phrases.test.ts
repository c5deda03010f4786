import { expect, test } from 'vitest';
import type { PlannedMark } from '../../../server/core/plan.ts';
import { phrases, phrasesOfRun } from '../../../server/core/words/phrases.ts';

const called = (mark: number, callDeg: number): PlannedMark => ({
  mark,
  girthMm: 150 * mark,
  bevelDeg: callDeg,
  sawnDeg: callDeg,
  callDeg,
  yMm: null,
  zMm: null,
  radiusMm: null,
  stockMm: 150 * mark,
  innerStockMm: 150 * mark,
  lineTopMm: 0,
  lineBottomMm: 0,
  outerEdgesMm: [20, 20],
  innerEdgesMm: [20, 20],
});
const marks = [called(1, 4), called(2, 6.5), called(3, 4), called(4, 2)];

test('each angle once, in the order of the marks, then the fixed phrases', () => {
  const said = phrasesOfRun({ marks, voice: { language: 'en', form: 'angle', numbers: 'natural' } });
  expect(said).toEqual([
    { text: 'four', deg: 4 },
    { text: 'six and a half', deg: 6.5, mark: 2 },
    { text: 'two', deg: 2, mark: 4 },
    ...Object.values(phrases).map((text) => ({ text })),
  ]);
});

test('with its mark, every call is its own', () => {
  const said = phrasesOfRun({ marks, voice: { language: 'en', form: 'mark and angle', numbers: 'digits' } });
  expect(said.slice(0, 4).map(({ mark }) => mark)).toEqual([1, 2, 3, 4]);
  expect(new Set(said.map(({ text }) => text)).size).toBe(said.length);
});

test('to stop the feed always means to hold the tilt, and the order comes first', () => {
  expect(phrases.stopFeed).toMatch(/^stop feed, hold tilt$/);
  expect(phrases.signalLost).toMatch(
    /^stop feed, hold tilt, .*switch off, wait until the blade stands, never back out$/,
  );
});

test('no word of the shop or of the bevel that could be taken for another', () => {
  for (const text of Object.values(phrases)) expect(text).not.toMatch(/\b(set|opening|closing|open|close)\b/);
});
