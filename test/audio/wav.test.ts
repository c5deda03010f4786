import fc from 'fast-check';
import { expect, test } from 'vitest';
import { durationMs, readWav, writeWav } from '../../audio/wav.ts';

const wavs = fc.record({
  sampleRateHz: fc.integer({ min: 8000, max: 96_000 }),
  samples: fc.int16Array({ maxLength: 500 }),
});
const comments = fc.string({ unit: fc.constantFrom(...'abc 0123456789'), minLength: 1, maxLength: 40 });

test('what is written is read back', () => {
  fc.assert(
    fc.property(wavs, fc.option(comments, { nil: undefined }), (wav, comment) => {
      const whole = comment === undefined ? wav : { ...wav, comment };
      expect(readWav(writeWav(whole))).toEqual({ ok: true, wav: whole });
    }),
  );
});

test('a file cut short anywhere is told to be so', () => {
  fc.assert(
    fc.property(wavs, comments, fc.nat(), (wav, comment, cut) => {
      const bytes = writeWav({ ...wav, comment });
      expect(readWav(bytes.subarray(0, cut % bytes.length)).ok).toBe(false);
    }),
  );
});

test('no bytes at all make it throw', () => {
  const header = Buffer.from('RIFF\x10\0\0\0WAVE');
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), fc.boolean(), (bytes, riff) => {
      expect(readWav(riff ? Buffer.concat([header, bytes]) : bytes)).toHaveProperty('ok');
    }),
    { numRuns: 500 },
  );
});

test('another kind of sound is refused by its kind', () => {
  const stereo = writeWav({ sampleRateHz: 22_050, samples: new Int16Array(4) });
  stereo[22] = 2;
  expect(readWav(stereo)).toEqual({ ok: false, why: 'not mono 16-bit PCM' });
  expect(readWav(Buffer.from('not a sound at all'))).toEqual({ ok: false, why: 'not a WAV' });
});

test('22,050 samples at 22,050 a second last a second', () => {
  expect(durationMs({ sampleRateHz: 22_050, samples: new Int16Array(22_050) })).toBe(1000);
});
