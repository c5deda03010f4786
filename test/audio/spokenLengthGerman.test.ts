import { beforeAll, expect, test, vi } from 'vitest';
import { SAMPLE_RATE_HZ } from '../../audio/pcm/format.ts';
import { makeClip } from '../../audio/pcm/makeClip.ts';
import { loadEmbedded, type Mouth } from '../../audio/voice/embedded.ts';
import { isSpeakable, VOICE_NAMES, WORDS_PER_MIN } from '../../audio/voice/settings.ts';
import { callText } from '../../server/core/words/callText.ts';
import { grammarOf } from '../../server/core/words/languages.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';
import { spokenLengthS } from '../../server/core/words/spokenLength.ts';

vi.setConfig({ testTimeout: 120_000 });

let say: Mouth;
beforeAll(async () => {
  say = await loadEmbedded({ name: VOICE_NAMES.de, wordsPerMin: WORDS_PER_MIN });
});

/** The reckoned length is held against the voice itself; what may not be spoken is not a length. */
function offOf(text: string): number {
  expect(isSpeakable(text, 'de'), text).toBe(true);
  return Math.abs((spokenLengthS(text, 'de') * SAMPLE_RATE_HZ) / makeClip(say(text)).length - 1);
}

test.each(['natural', 'digits', 'two digits'] as const)(
  'the reckoned length of German calls is within 15 % of the voice: %s',
  (form) => {
    for (let halves = 0; halves <= 90; halves += 5) {
      const text = numberWords(halves / 2, form, 'de');
      expect(offOf(text), text).toBeLessThan(0.15);
    }
  },
);

test('so it is with marks and fixed phrases', () => {
  const marked = [1, 7, 22, 99, 128].map((mark) =>
    callText({ mark, deg: mark / 4 }, { language: 'de', form: 'mark and angle', numbers: 'digits' }),
  );
  for (const text of [...marked, ...Object.values(grammarOf('de').phrases)])
    expect(offOf(text), text).toBeLessThan(0.15);
});
