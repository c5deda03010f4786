/** Nothing that a user types reaches a shell, a Scheme, or an option of a program. Real programs on PATH write down what they get. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { findFilePlayers } from '../../audio/players/filePlayers.ts';
import { findSayPlayer, isInVocabulary } from '../../audio/players/sayPlayer.ts';
import { openStudio } from '../../audio/recorded/studio.ts';
import { findSystemVoice } from '../../audio/system/systemVoice.ts';
import { isSpeakable } from '../../audio/voice/settings.ts';
import { writeWav } from '../../audio/wav.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { hostileText } from '../kit/hostileText.ts';
import { onPath, standIn } from './standIn.ts';

const studio = openStudio();
afterAll(() => studio.close());

const ours = fc.constantFrom(
  ...Object.values(phrases),
  'four',
  'twenty-two point five',
  'mark seven, one two and a half',
);
/** Ours, with something in it that is not. */
const almostOurs = fc
  .tuple(ours, hostileText, fc.nat({ max: 30 }))
  .map(([text, evil, at]) => text.slice(0, at) + evil + text.slice(at));

test('festival’s Scheme is given words of the program, and nothing else', async () => {
  const festival = standIn('festival');
  onPath(festival.path);
  const player = findSayPlayer('linux', festival.path);
  let refused = 0;
  for (const text of fc.sample(fc.oneof(ours, hostileText, almostOurs), 150)) {
    const before = festival.given().length;
    const why = await player?.play({ text, file: '/nowhere.wav', durationMs: 10 }).ended;
    const given = festival.given().slice(before);
    if (isInVocabulary(text)) expect(given).toMatchObject([{ args: ['--pipe'], input: `(SayText "${text}")` }]);
    else {
      refused += 1;
      expect([text, why, given]).toEqual([text, expect.stringMatching(/is not given$/), []]);
    }
  }
  expect(refused).toBeGreaterThan(50);
});

test('a text of the program is letters, spaces, commas and hyphens, and begins with a letter', () => {
  fc.assert(
    fc.property(fc.oneof(hostileText, almostOurs, fc.string({ unit: 'binary' })), (text) => {
      if (isInVocabulary(text)) expect(text).toMatch(/^[a-z][a-z ,-]*$/);
    }),
    { numRuns: 3000 },
  );
  for (const text of Object.values(phrases)) expect(isInVocabulary(text), text).toBe(true);
});

test.each(['espeak-ng', 'text2wave'])('%s is given a speakable text as one argument or on its input', async (name) => {
  const clip = join(freeDataDir(), 'clip.wav');
  const samples = Int16Array.from({ length: 8000 }, (_, i) => 9000 * Math.sin(i / 5));
  writeFileSync(clip, writeWav({ sampleRateHz: 16_000, samples }));
  const program = standIn(name, clip);
  program.behave('copies');
  onPath(program.path);
  const voice = findSystemVoice(studio, 'linux', program.path);
  for (const text of fc.sample(fc.oneof(ours, hostileText, almostOurs), 40)) {
    const before = program.given().length;
    const spoken = await voice?.speak(text, 'en').catch((error: Error) => error);
    const given = program.given().slice(before);
    if (!isSpeakable(text)) {
      expect([text, spoken, given]).toEqual([text, expect.any(RangeError), []]);
      continue;
    }
    expect(spoken).toBeInstanceOf(Int16Array);
    const file = expect.stringMatching(/^\/.*\/by-the-mark-\w+\/[0-9a-f-]{36}\.wav$/);
    expect(given).toMatchObject([
      name === 'espeak-ng'
        ? { args: ['-v', 'en-us', '-w', file, '--', text], input: '' }
        : { args: ['-o', file], input: `${text}\n` },
    ]);
  }
});

test('a player is given a file’s name, whole and alone, however the folder of the data is called', async () => {
  const folder = join(freeDataDir(), `it's "mine"; $(touch here) & -v`);
  for (const name of ['aplay', 'paplay', 'afplay'] as const) {
    const program = standIn(name);
    const [player] = findFilePlayers(program.path);
    const file = join(folder, 'clip.wav');
    expect(await player?.play({ text: '"; touch here', file, durationMs: 10 }).ended).toBeNull();
    expect(program.given()).toMatchObject([{ args: name === 'aplay' ? ['-q', file] : [file], input: '' }]);
  }
});

test('PowerShell is given no name in its command: it reads it from its environment', async () => {
  const program = standIn('powershell.exe');
  const [player] = findFilePlayers(program.path);
  await player?.play({ text: '', file: '/a/$(x)/"clip".wav', durationMs: 10 }).ended;
  const [given] = program.given();
  expect(given?.args.slice(0, 3)).toEqual(['-NoProfile', '-NonInteractive', '-Command']);
  expect(given?.args[3]).toBe('(New-Object System.Media.SoundPlayer $env:BY_THE_MARK_CLIP).PlaySync()');
});
