import { access, mkdir, readdir, readFile, rm, truncate, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, onTestFinished, test } from 'vitest';
import { openStudio } from '../../audio/recorded/studio.ts';
import { openVoices } from '../../audio/voicesHere.ts';
import { readWav } from '../../audio/wav.ts';
import { voiceName } from '../../server/wire/kept/voices.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { asWav, inARoom, type Room, speaker } from './aRecording.ts';

const voice = speaker();
const studio = openStudio();
afterAll(() => Promise.all([voice.close(), studio.close()]));
const recording = async (text: string, room?: Room) => asWav(inARoom(await voice.words(text), room), room?.rateHz);

function here() {
  const dataDir = freeDataDir();
  const voices = openVoices({ dataDir, studio: { ...studio, close: async () => {} } });
  onTestFinished(() => voices.close());
  return { dataDir, voices, folder: (name: string) => join(dataDir, 'voices', name) };
}
const keyOf = (url: string | null | undefined): string => /([0-9a-f]{32})\.wav$/.exec(url ?? '')?.[1] ?? '';
async function keptAs(voices: ReturnType<typeof openVoices>, name: string, text: string, room?: Room) {
  const kept = await voices.keep(name, text, await recording(text, room));
  if (!kept.ok) throw new Error(kept.error.message);
  return kept;
}

test('what is recorded is listed, told phrase by phrase, and says a run when it has all of it', async () => {
  const { voices, folder } = here();
  await keptAs(voices, 'Mate', 'four');
  const five = await keptAs(voices, 'mate', 'five');
  expect(five.voice).toBe('Mate');
  expect((await readdir(folder('Mate'))).toSorted()).toEqual([
    'clips',
    expect.stringMatching(/^five-[0-9a-f]{6}\.wav$/),
    expect.stringMatching(/^four-[0-9a-f]{6}\.wav$/),
    'voice.json',
  ]);
  expect((await voices.list()).at(-1)).toMatchObject({ name: 'Mate', kind: 'recorded', phrases: 2 });
  const told = await voices.recorded('MATE');
  expect(told?.phrases.map(({ text, fault }) => [text, fault])).toEqual([
    ['four', null],
    ['five', null],
  ]);

  const rendered = await voices.render(['five', 'four', 'five'], { voice: 'mate' });
  if (!rendered.ok) throw new Error('refused');
  expect(rendered.voice).toBe('Mate');
  expect(rendered.clips.map(({ text }) => text)).toEqual(['five', 'four', 'five']);
  expect(rendered.clips[0]?.key).toBe(keyOf(five.url));
  const bytes = await readFile((await voices.clipFile(keyOf(five.url))) ?? '');
  expect(readWav(bytes)).toMatchObject({ ok: true, wav: { sampleRateHz: 22_050 } });
});

test('what is missing is listed, and nobody else steps in for it', async () => {
  const { voices } = here();
  await keptAs(voices, 'Mate', 'four');
  expect(await voices.render(['four', 'five', 'six'], { voice: 'Mate' })).toEqual({
    ok: false,
    problems: ['five', 'six'].map((text) => ({
      code: 'missing',
      at: { field: 'voice' },
      found: `no "${text}" by Mate`,
      wanted: `a recording of "${text}"`,
    })),
  });
  expect(await voices.render(['four'], { voice: 'Somebody' })).toMatchObject({
    ok: false,
    problems: [{ code: 'unknown-name' }],
  });
});

test('a recording that will not do is told, and leaves nothing behind', async () => {
  const { voices, dataDir } = here();
  const told = await voices.keep('Mate', 'four', await recording('four', { peak: 3 }));
  expect(told).toMatchObject({ ok: false, error: { code: 'clipped', message: expect.stringMatching(/^Too loud/) } });
  await expect(access(join(dataDir, 'voices'))).rejects.toThrow();
});

test('another take is another clip; one of before is still there for the runs that were made with it', async () => {
  const { voices, folder } = here();
  const first = await keptAs(voices, 'Mate', 'four');
  const second = await keptAs(voices, 'Mate', 'four', { peak: 0.5 });
  expect(second.url).not.toBe(first.url);
  expect((await voices.recorded('Mate'))?.phrases.map(({ url }) => url)).toEqual([second.url]);
  const said = { text: 'four', voice: 'Mate' };
  const old = (await voices.clipFile(keyOf(first.url), said)) ?? '';
  expect((await readFile(old)).length).toBeGreaterThan(1000);
  // Gone, and its recording with it: that is told, and nothing else is played in its place.
  await truncate(old, 500);
  expect(await voices.clipFile(keyOf(first.url), said)).toBeUndefined();
  // Gone, and its recording still there.
  await rm(join(folder('Mate'), 'clips'), { recursive: true });
  const again = (await voices.clipFile(keyOf(second.url), said)) ?? '';
  expect((await readFile(again)).length).toBeGreaterThan(1000);
});

test('clips of the embedded voice are spoken anew where they are gone or damaged, under the name by which a run knows them', async () => {
  const { voices, dataDir } = here();
  const rendered = await voices.render(['four']);
  const key = rendered.ok ? (rendered.clips[0]?.key ?? '') : '';
  await rm(join(dataDir, 'clips'), { recursive: true });
  for (const damage of [
    async () => {},
    (file: string) => truncate(file, 300),
    (file: string) => writeFile(file, 'x'),
  ]) {
    const file = (await voices.clipFile(key, { text: 'four' })) ?? '';
    expect(readWav(await readFile(file)).ok).toBe(true);
    await damage(file);
  }
  // Made by a voice or a processing of before: the run knows it by a key that would not be given today.
  const before = 'f'.repeat(32);
  expect(readWav(await readFile((await voices.clipFile(before, { text: 'four' })) ?? '')).ok).toBe(true);
  expect(await voices.clipFile('../../journal', { text: 'four' })).toBeUndefined();
});

describe('a folder that was made by hand', () => {
  test('of any rate, checked phrase by phrase', async () => {
    const { voices, folder } = here();
    await mkdir(folder('Old Hand'), { recursive: true });
    await writeFile(join(folder('Old Hand'), 'take 1.wav'), await recording('four', { rateHz: 44_100 }));
    await writeFile(join(folder('Old Hand'), 'noise.wav'), 'no sound');
    const phrases = { four: 'take 1.wav', five: 'noise.wav', six: 'none.wav' };
    await writeFile(join(folder('Old Hand'), 'voice.json'), JSON.stringify({ format: 'by-the-mark/voice@1', phrases }));
    expect((await voices.recorded('old hand'))?.phrases).toMatchObject([
      { text: 'four', fault: null },
      { text: 'five', url: null, fault: { code: 'not-a-recording' } },
      { text: 'six', url: null, fault: { code: 'not-a-recording' } },
    ]);
    expect(await voices.render(['four', 'five'], { voice: 'Old Hand' })).toMatchObject({
      ok: false,
      problems: [{ found: 'a recording of "five" by Old Hand that will not do' }],
    });
    expect(await voices.render(['four'], { voice: 'Old Hand' })).toMatchObject({ ok: true });
  });

  test.each([
    ['no JSON', '{', /not JSON/],
    ['another format', '{"format":"x","phrases":{}}', /expected "format"/],
    ['a way out of the folder', JSON.stringify(manifest({ four: '../../secret.wav' })), /name of a WAV file/],
    ['a hidden file', JSON.stringify(manifest({ four: '.four.wav' })), /name of a WAV file/],
    ['words that are none', JSON.stringify(manifest({ '$(four)': 'four.wav' })), /not the words of a phrase/],
  ])('%s is told, and never written over', async (_, text, why) => {
    const { voices, folder } = here();
    await mkdir(folder('Mate'), { recursive: true });
    await writeFile(join(folder('Mate'), 'voice.json'), text);
    expect((await voices.recorded('Mate'))?.fault).toMatch(why);
    expect(await voices.render(['four'], { voice: 'Mate' })).toMatchObject({
      ok: false,
      problems: [{ code: 'not-json' }],
    });
    expect(await voices.keep('Mate', 'four', await recording('four'))).toMatchObject({
      ok: false,
      error: { code: 'unreadable', message: expect.stringMatching(why) },
    });
    expect(await readFile(join(folder('Mate'), 'voice.json'), 'utf8')).toBe(text);
  });
});

function manifest(phrases: Readonly<Record<string, string>>): object {
  return { format: 'by-the-mark/voice@1', phrases };
}

test('forgetting takes away everything of a voice, and nothing of another', async () => {
  const { voices, dataDir } = here();
  const kept = await keptAs(voices, 'Mate', 'four');
  await keptAs(voices, 'Other', 'four');
  expect(await voices.forget('mate')).toBe(true);
  expect(await voices.forget('mate')).toBe(false);
  expect(await readdir(join(dataDir, 'voices'))).toEqual(['Other']);
  expect(await voices.clipFile(keyOf(kept.url), { text: 'four', voice: 'Mate' })).toBeUndefined();
  for (const name of ['..', '.', '', '../clips', 'Other/..']) expect(await voices.forget(name)).toBe(false);
  expect(await readdir(join(dataDir, 'voices'))).toEqual(['Other']);
});

test('many at once are all kept', async () => {
  const { voices } = here();
  const texts = ['four', 'five', 'six', 'seven'];
  await Promise.all(texts.map((text) => keptAs(voices, 'Mate', text)));
  expect((await voices.recorded('Mate'))?.phrases.map(({ text }) => text).toSorted()).toEqual(texts.toSorted());
});

test('a name is one folder and no more, whatever is typed', async () => {
  fc.assert(
    fc.property(fc.oneof(fc.string({ unit: 'grapheme' }), fc.string({ unit: 'binary' })), (typed) => {
      const name = voiceName(typed);
      if (name === undefined) return;
      expect(name).not.toMatch(/[./\\:*?"<>|\p{C}]/u);
      expect(name.length).toBeLessThanOrEqual(40);
      expect(voiceName(name)).toBe(name);
    }),
    { numRuns: 2000 },
  );
  for (const no of ['', '..', 'a/b', 'a\\b', 'con', 'LPT1', 'a.b', '-rf', ' - ', 'x'.repeat(41)])
    expect(voiceName(no), no).toBeUndefined();
  expect(voiceName('  Zoë  de Wit ')).toBe('Zoë de Wit');
  const { voices } = here();
  for (const name of ['en-us', 'EN-US', 'system', '../x'])
    expect(await voices.keep(name, 'four', new Uint8Array(1))).toMatchObject({
      ok: false,
      error: { code: 'bad-name' },
    });
});

test('German is spoken by the German voice, and asked for again by it', async () => {
  const { voices, dataDir } = here();
  const german = await voices.render(['fünfundzwanzig'], { language: 'de' });
  if (!german.ok) throw new Error('refused');
  await expect(voices.render(['fünfundzwanzig'])).rejects.toThrow(/not a text to be spoken/);
  const key = german.clips[0]?.key ?? '';
  await rm(join(dataDir, 'clips'), { recursive: true });
  const file = await voices.clipFile(key, { text: 'fünfundzwanzig', language: 'de' });
  expect(readWav(await readFile(file ?? '')).ok).toBe(true);
});
