import { expect, test } from 'vitest';
import { type Biquad, filter, highPass, highShelf } from '../../audio/pcm/biquad.ts';
import { kWeighting, loudnessLufs } from '../../audio/pcm/loudness.ts';
import { readWav, writeWav } from '../../audio/wav.ts';
import { expectClose } from '../kit/close.ts';

/** |H| in dB at a frequency, straight from the transfer function on the unit circle. */
function gainDbAt({ b, a }: Biquad, hz: number, rateHz: number): number {
  const w = (2 * Math.PI * hz) / rateHz;
  const size2 = ([c0, c1, c2]: readonly [number, number, number]): number =>
    (c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w)) ** 2 + (c1 * Math.sin(w) + c2 * Math.sin(2 * w)) ** 2;
  return 10 * Math.log10(size2(b) / size2([1, a[0], a[1]]));
}

const sine = (hz: number, gain: number, seconds: number, rateHz: number): Float64Array =>
  Float64Array.from(
    { length: Math.round(seconds * rateHz) },
    (_, i) => gain * Math.sin((2 * Math.PI * hz * i) / rateHz),
  );

/** Source: ITU-R BS.1770-4, tables 1 and 2, coefficients for 48 kHz (read in a copy). */
test('K-weighting at 48 kHz has the coefficients that the standard prints', () => {
  const [head, low] = kWeighting(48_000);
  const near = (found: readonly number[], wanted: readonly number[], of: string): void =>
    wanted.forEach((value, i) => {
      expectClose(found[i] ?? Number.NaN, value, 1e-8, `${of}[${i}]`);
    });
  near(head.b, [1.53512485958697, -2.69169618940638, 1.19839281085285], 'head b');
  near(head.a, [-1.69065929318241, 0.73248077421585], 'head a');
  near(low.b, [1, -2, 1], 'low cut b');
  near(low.a, [-1.99004745483398, 0.99007225036621], 'low cut a');
});

/** Source: ITU-R BS.1770-4, annex 1: a 997 Hz sine at 0 dBFS in one front channel reads -3.01 LKFS (second-hand). */
test.each([48_000, 22_050])('a full-scale sine of 997 Hz reads -3.01 LUFS at %d samples a second', (rateHz) => {
  expectClose(loudnessLufs(sine(997, 1, 5, rateHz), rateHz), -3.01, 0.05, 'LUFS');
});

/** Source: EBU Tech 3341, test 3 (from memory): 10 s at -36, 60 s at -23, 10 s at -36 dBFS in two channels reads -23.0; one channel 3.01 less. */
test('quiet passages are gated out', () => {
  const rateHz = 8000;
  const parts = [
    [-36, 10],
    [-23, 60],
    [-36, 10],
  ] as const;
  const all = parts.flatMap(([dbfs, seconds]) => [...sine(1000, 10 ** (dbfs / 20), seconds, rateHz)]);
  expectClose(loudnessLufs(Float64Array.from(all), rateHz), -26.01, 0.1, 'LUFS');
});

/** Source: W3C Working Group Note "Audio EQ Cookbook" (2021; second-hand: read in excerpts), after Bristow-Johnson: what the corner frequency and the shelf gain mean. */
test('the high-pass is 3 dB down at its corner and falls by 12 dB an octave', () => {
  const cut = highPass(250, Math.SQRT1_2, 22_050);
  expectClose(gainDbAt(cut, 250, 22_050), -3.01, 0.01, 'at the corner');
  expectClose(gainDbAt(cut, 31.25, 22_050) - gainDbAt(cut, 15.625, 22_050), 12.04, 0.1, 'an octave');
  expectClose(gainDbAt(cut, 5000, 22_050), 0, 0.05, 'far above');
});

test('the shelf lifts by half at its corner, by all far above, by nothing far below', () => {
  const shelf = highShelf(1200, 9, Math.SQRT1_2, 22_050);
  expectClose(gainDbAt(shelf, 1200, 22_050), 4.5, 0.01, 'at the corner');
  expectClose(gainDbAt(shelf, 11_000, 22_050), 9, 0.01, 'far above');
  expectClose(gainDbAt(shelf, 20, 22_050), 0, 0.01, 'far below');
});

test('what the filter does to a sine is what its transfer function says', () => {
  const shelf = highShelf(1200, 9, Math.SQRT1_2, 22_050);
  const settled = filter(sine(3000, 0.25, 1, 22_050), shelf).subarray(4410);
  const rms = Math.sqrt(settled.reduce((sum, s) => sum + s * s, 0) / settled.length);
  expectClose(20 * Math.log10((rms * Math.SQRT2) / 0.25), gainDbAt(shelf, 3000, 22_050), 0.01, 'gain dB');
});

/** Source: RIFF WAVE, PCM: Microsoft and IBM, "Multimedia Programming Interface and Data Specifications 1.0", 1991 (from memory), byte by byte. */
test('a WAV of two samples, byte by byte', () => {
  const bytes = writeWav({ sampleRateHz: 22_050, samples: Int16Array.of(1, -2) });
  const wanted =
    '52494646 28000000 57415645 666d7420 10000000 0100 0100 22560000 44ac0000 0200 1000 64617461 04000000 0100 feff';
  expect(Buffer.from(bytes).toString('hex')).toBe(wanted.replaceAll(' ', ''));
  expect(readWav(Buffer.from(wanted.replaceAll(' ', ''), 'hex'))).toEqual({
    ok: true,
    wav: { sampleRateHz: 22_050, samples: Int16Array.of(1, -2) },
  });
});
