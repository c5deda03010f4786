import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { type ClipStore, openClips } from '../../audio/clips.ts';
import { callText } from '../../server/core/words/callText.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import { spokenLengthS } from '../../server/core/words/spokenLength.ts';

// 280 phrases: 9 s of work, longer where other tests want the same two cores.
vi.setConfig({ testTimeout: 120_000 });

let dataDir: string;
let clips: ClipStore;
beforeAll(async () => {
  dataDir = await mkdtemp(join(tmpdir(), 'lengths-'));
  clips = openClips({ dataDir });
});
afterAll(async () => {
  await clips.close();
  await rm(dataDir, { recursive: true, force: true });
});

async function farthestOff(texts: readonly string[]): Promise<{ text: string; off: number }> {
  const offs = (await clips.render(texts)).map(({ text, durationMs }) => ({
    text,
    off: Math.abs((spokenLengthS(text, 'en') * 1000) / durationMs - 1),
  }));
  return offs.reduce((far, one) => (one.off > far.off ? one : far));
}

test.each([{ form: 'natural' }, { form: 'digits' }, { form: 'two digits' }] as const)(
  'the reckoned length of every half-degree call is within 15 % of the voice: $form',
  async ({ form }) => {
    const far = await farthestOff(Array.from({ length: 91 }, (_, i) => numberWords(i / 2, form, 'en')));
    expect(far.off, far.text).toBeLessThan(0.15);
  },
);

test('so it is with marks and fixed phrases', async () => {
  const marked = [1, 7, 13, 40, 99, 128].map((mark) =>
    callText({ mark, deg: mark / 4 }, { language: 'en', form: 'mark and angle', numbers: 'digits' }),
  );
  const far = await farthestOff([...marked, ...Object.values(phrases)]);
  expect(far.off, far.text).toBeLessThan(0.15);
});
