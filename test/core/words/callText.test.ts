import { expect, test } from 'vitest';
import { callText } from '../../../server/core/words/callText.ts';
import type { NumberForm } from '../../../server/core/words/voiceChoice.ts';

const voice = (form: 'angle' | 'mark and angle', numbers: NumberForm) => ({ language: 'en', form, numbers }) as const;

test('the angle alone, or the mark before it', () => {
  expect(callText({ mark: 7, deg: 12.5 }, voice('angle', 'digits'))).toBe('one two point five');
  expect(callText({ mark: 7, deg: 12.5 }, voice('mark and angle', 'natural'))).toBe('mark seven, twelve and a half');
});

test('a mark is spoken whole whatever the angle is, and digit by digit from a hundred on', () => {
  expect(callText({ mark: 12, deg: 3 }, voice('mark and angle', 'digits'))).toBe('mark twelve, three point zero');
  expect(callText({ mark: 99, deg: 3 }, voice('mark and angle', 'natural'))).toBe('mark ninety-nine, three');
  expect(callText({ mark: 2000, deg: 3 }, voice('mark and angle', 'natural'))).toBe('mark two zero zero zero, three');
});

test('marks count from one', () => {
  for (const mark of [0, -1, 1.5]) {
    expect(() => callText({ mark, deg: 3 }, voice('mark and angle', 'natural'))).toThrow(String(mark));
  }
});

test('in German', () => {
  const german = { language: 'de', form: 'mark and angle', numbers: 'digits' } as const;
  expect(callText({ mark: 22, deg: 12.5 }, german)).toBe('Marke zweiundzwanzig, eins zwo Komma fünf');
  expect(callText({ mark: 120, deg: 12.5 }, german)).toBe('Marke eins zwo null, eins zwo Komma fünf');
});
