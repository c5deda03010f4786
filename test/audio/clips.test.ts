import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, stat, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { isAbsolute, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type ClipStore, openClips, type RenderedClip } from '../../audio/clips.ts';
import { fromInt16, gainToDb, peakOf, SAMPLE_RATE_HZ } from '../../audio/pcm/format.ts';
import { loudnessLufs } from '../../audio/pcm/loudness.ts';
import { CEILING_DBFS } from '../../audio/pcm/makeClip.ts';
import { firstSound } from '../../audio/pcm/silence.ts';
import { openVoice, VoiceFailed } from '../../audio/voice/voice.ts';
import { listVoices } from '../../audio/voicesHere.ts';
import { readWav } from '../../audio/wav.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';
import { phrases } from '../../server/core/words/phrases.ts';

let dataDir: string;
let clips: ClipStore;
let rendered: readonly RenderedClip[];
const texts = [
  ...Object.values(phrases),
  ...[0, 2, 5.5, 16].flatMap((deg) =>
    (['natural', 'digits', 'two digits'] as const).map((form) => numberWords(deg, form, 'en')),
  ),
];

beforeAll(async () => {
  dataDir = await mkdtemp(join(tmpdir(), 'clips-'));
  clips = openClips({ dataDir });
  rendered = await clips.render(texts);
});
afterAll(async () => {
  await clips.close();
  await rm(dataDir, { recursive: true, force: true });
});

async function samplesOf(key: string): Promise<Float64Array> {
  const read = readWav(await readFile(clips.pathOf(key) ?? ''));
  if (!read.ok) throw new Error(read.why);
  expect(read.wav.sampleRateHz).toBe(SAMPLE_RATE_HZ);
  return fromInt16(read.wav.samples);
}

test('every phrase is spoken: of a plausible length, at once, unclipped, all equally loud', async () => {
  expect(rendered.map(({ text }) => text)).toEqual(texts);
  const loudnesses: number[] = [];
  for (const { text, key, durationMs } of rendered) {
    const samples = await samplesOf(key);
    expect(durationMs, text).toBe(Math.round((samples.length / SAMPLE_RATE_HZ) * 1000));
    expect(durationMs, text).toBeGreaterThan(200);
    // The one long phrase begins with its order; the rest may be cut off by the next call.
    expect(durationMs, text).toBeLessThan(text === phrases.signalLost ? 7000 : 4000);
    expect(firstSound(samples, -40), text).toBeGreaterThanOrEqual(0);
    expect(firstSound(samples, -40), text).toBeLessThanOrEqual(SAMPLE_RATE_HZ * 0.01);
    expect(gainToDb(peakOf(samples)), text).toBeLessThanOrEqual(CEILING_DBFS + 0.01);
    expect(Math.abs(samples[0] ?? 1) + Math.abs(samples.at(-1) ?? 1), text).toBeLessThan(0.001);
    loudnesses.push(loudnessLufs(samples, SAMPLE_RATE_HZ));
  }
  expect(Math.max(...loudnesses) - Math.min(...loudnesses)).toBeLessThan(1);
});

test('what was spoken once is not spoken again, by this store or the next', async () => {
  const before = await Promise.all(rendered.map(({ key }) => stat(clips.pathOf(key) ?? '')));
  const next = openClips({ dataDir, voice: openVoice({ door: new URL('./crashingDoor.mjs', import.meta.url) }) });
  expect(await next.render(texts)).toEqual(rendered);
  await next.close();
  const after = await Promise.all(rendered.map(({ key }) => stat(clips.pathOf(key) ?? '')));
  expect(after.map(({ mtimeMs }) => mtimeMs)).toEqual(before.map(({ mtimeMs }) => mtimeMs));
});

test.each([
  ['emptied', (file: string) => truncate(file, 0)],
  ['cut short', (file: string) => truncate(file, 5000)],
  ['overwritten', (file: string) => writeFile(file, 'not a sound')],
  [
    'altered by one bit',
    async (file: string) => {
      const bytes = await readFile(file);
      bytes[4000] = (bytes[4000] ?? 0) ^ 1;
      await writeFile(file, bytes);
    },
  ],
])('a clip that was %s is noticed and spoken anew', async (_, damage) => {
  const [clip] = rendered;
  const file = clips.pathOf(clip?.key ?? '') ?? '';
  await damage(file);
  const [again] = await clips.render([phrases.stopFeed]);
  expect(again?.key).toBe(clip?.key);
  expect(await samplesOf(again?.key ?? '')).not.toHaveLength(0);
});

test('a clip of other words under this name is not taken for it', async () => {
  const [one, other] = rendered;
  await writeFile(clips.pathOf(one?.key ?? '') ?? '', await readFile(clips.pathOf(other?.key ?? '') ?? ''));
  const [again] = await clips.render([one?.text ?? '']);
  expect(again?.durationMs).toBeLessThan((other?.durationMs ?? 0) / 2);
});

test('progress is told clip by clip, and the same words asked twice are made once', async () => {
  const told: string[] = [];
  const ask = ['nine and a half', 'nine and a half'];
  const [here, there] = await Promise.all([
    clips.render(ask, { onProgress: (ready, of) => told.push(`${ready}/${of}`) }),
    clips.render(ask),
  ]);
  expect(told).toEqual(['1/2', '2/2']);
  expect(here).toEqual(there);
});

test('only a clip that is there has a path, whatever is asked', async () => {
  const [clip] = rendered;
  const path = clips.pathOf(clip?.key ?? '');
  expect(path !== undefined && isAbsolute(path) && path.startsWith(dataDir)).toBe(true);
  for (const key of [
    '',
    '.',
    '..',
    '../secret',
    `../clips/${clip?.key}`,
    `${clip?.key}.wav`,
    `${clip?.key}\0`,
    `${clip?.key}\n`,
  ]) {
    expect(clips.pathOf(key), JSON.stringify(key)).toBeUndefined();
  }
  expect(clips.pathOf('0'.repeat(32))).toBeUndefined();
});

test.each(['', ' ', '<voice>', '[[fIv]]', 'five; six', '|five', 'fünf', 'a\nb', 'a'.repeat(161), '-five'])(
  'what is not a phrase is refused: %j',
  async (text) => {
    await expect(clips.render([text])).rejects.toThrow(VoiceFailed);
  },
);

test('nothing half-written is left, and what a killed server left is cleared away', async () => {
  const folder = join(dataDir, 'clips');
  expect((await readdir(folder)).filter((name) => !/^[0-9a-f]{32}\.wav$/.test(name))).toEqual([]);
  await writeFile(join(folder, 'left.unfinished'), 'half a clip');
  const next = openClips({ dataDir });
  await next.render([phrases.stopFeed]);
  await next.close();
  expect(await readdir(folder)).not.toContain('left.unfinished');
});

test('a disk that cannot be written to is told, not swallowed', async () => {
  const blocked = join(dataDir, 'blocked');
  await mkdir(blocked);
  await writeFile(join(blocked, 'clips'), 'a file where the folder should be');
  const store = openClips({ dataDir: blocked });
  await expect(store.render([phrases.stopFeed])).rejects.toThrow(/EEXIST|ENOTDIR/);
  await store.close();
});

test.each([
  ['dies', 'die', /exit/],
  ['hangs', 'hang', /no answer within/],
  ['breaks', 'break', /larynx/],
])('a voice whose thread %s is reported, and the next text is spoken', async (_, text, why) => {
  const voice = openVoice({ door: new URL('./crashingDoor.mjs', import.meta.url), patienceMs: 3000 });
  const failed = await voice.speak(text).catch((cause: unknown) => cause);
  expect(failed).toBeInstanceOf(VoiceFailed);
  expect(String(failed)).toMatch(why);
  expect(await voice.speak('five')).toHaveLength(2205);
  await voice.close();
});

test('a voice that cannot be loaded is reported', async () => {
  const voice = openVoice({ door: new URL('./no-such-door.mjs', import.meta.url) });
  await expect(voice.speak('five')).rejects.toThrow(/no-such-door/);
  await voice.close();
});

test('the voices that are here', async () => {
  expect((await listVoices(dataDir))[0]).toMatchObject({
    name: 'en-us',
    kind: 'embedded',
    language: 'en',
    sampleRateHz: SAMPLE_RATE_HZ,
  });
});

test('the voice never reaches for the network', async () => {
  const voice = openVoice({ door: new URL('./offlineDoor.mjs', import.meta.url) });
  expect((await voice.speak('five')).length).toBeGreaterThan(2000);
  await voice.close();
});

test('plain node renders from a folder with a space, a # and a broken tsconfig of its own', async () => {
  const elsewhere = join(dataDir, 'another project #2');
  await mkdir(elsewhere);
  await writeFile(join(elsewhere, 'tsconfig.json'), '{ broken');
  const script = fileURLToPath(new URL('./fromElsewhere.mjs', import.meta.url));
  const { stdout } = await promisify(execFile)(process.execPath, [script], { cwd: elsewhere });
  expect(JSON.parse(stdout)).toMatchObject([{ text: 'twelve and a half' }]);
});
