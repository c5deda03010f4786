import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compress } from '../../audio/pcm/compress.ts';
import { fade } from '../../audio/pcm/fade.ts';
import { dbToGain, fromInt16, gainToDb, peakOf, toInt16 } from '../../audio/pcm/format.ts';
import { limitPeak } from '../../audio/pcm/limitPeak.ts';
import { loudnessLufs } from '../../audio/pcm/loudness.ts';
import { CEILING_DBFS, CLIP_LUFS, makeClip } from '../../audio/pcm/makeClip.ts';
import { firstSound, trimSilence } from '../../audio/pcm/silence.ts';
import { expectClose } from '../kit/close.ts';

const RATE_HZ = 22_050;
const tone = (seconds: number, gain: number): Float64Array =>
  Float64Array.from({ length: seconds * RATE_HZ }, (_, i) => gain * Math.sin((2 * Math.PI * 700 * i) / RATE_HZ));
const sounds = fc
  .array(fc.double({ min: -4, max: 4, noNaN: true }), { maxLength: 300 })
  .map((s) => Float64Array.from(s));

test('16 bits there and back change nothing', () => {
  fc.assert(
    fc.property(fc.int16Array(), (samples) => {
      expect(toInt16(fromInt16(samples))).toEqual(samples);
    }),
  );
});

test('beyond full scale is full scale, not the other side', () => {
  expect(toInt16(Float64Array.of(1.5, -1.5))).toEqual(Int16Array.of(32_767, -32_768));
});

test('the limiter lets nothing over its ceiling and leaves what is under alone', () => {
  fc.assert(
    fc.property(sounds, fc.integer({ min: 1, max: 40 }), (samples, reach) => {
      expect(peakOf(limitPeak(samples, 0.9, reach))).toBeLessThanOrEqual(0.9 + 1e-9);
      const quiet = samples.map((s) => s / 5);
      limitPeak(quiet, 0.9, reach).forEach((s, i) => {
        expectClose(s, quiet[i] ?? Number.NaN, 1e-12, `sample ${i}`);
      });
    }),
  );
});

test('trimming keeps the lead and the tail, and every sound', () => {
  const padded = Float64Array.from([...new Float64Array(900), ...tone(0.1, 0.5), ...new Float64Array(900)]);
  const trimmed = trimSilence(padded, { floorDb: -40, lead: 50, tail: 70 });
  expect(trimmed.length).toBeGreaterThan(2205);
  expect(trimmed.length).toBeLessThanOrEqual(2205 + 120);
  expect(firstSound(trimmed, -40)).toBe(50);
});

test('silence alone trims to nothing and makes an empty clip', () => {
  expect(trimSilence(new Float64Array(500), { floorDb: -40, lead: 50, tail: 50 })).toHaveLength(0);
  expect(makeClip(new Float64Array(500))).toHaveLength(0);
  expect(makeClip(new Float64Array(0))).toHaveLength(0);
});

test('a fade begins and ends at nothing and never overlaps itself', () => {
  fc.assert(
    fc.property(fc.integer({ min: 2, max: 300 }), fc.nat(400), fc.nat(400), (length, rise, fall) => {
      fc.pre(rise > 0 && fall > 0);
      const faded = fade(new Float64Array(length).fill(1), rise, fall);
      expect(faded[0]).toBe(0);
      expect(faded.at(-1)).toBe(0);
      expect(faded).toHaveLength(length);
      expect(faded.every((s) => s >= 0 && s <= 1)).toBe(true);
    }),
  );
});

test('compression at 3:1 brings 12 dB over the threshold down to 4, and leaves what is under alone', () => {
  const how = { thresholdDb: -20, ratio: 3, attackS: 0.001, releaseS: 0.05 };
  // A constant, so that the envelope is the level itself.
  const loud = compress(new Float64Array(RATE_HZ).fill(dbToGain(-8)), RATE_HZ, how);
  expectClose(gainToDb(loud.at(-1) ?? 0), -16, 0.01, 'dB');
  const quiet = tone(0.1, dbToGain(-21));
  expect(compress(quiet, RATE_HZ, how)).toEqual(quiet);
});

test('loudness follows the gain, dB for dB; silence is below every number', () => {
  const at = (gainDb: number): number => loudnessLufs(tone(1, dbToGain(gainDb)), RATE_HZ);
  expectClose(at(-10) - at(-25), 15, 1e-6, 'LU');
  expect(loudnessLufs(new Float64Array(RATE_HZ), RATE_HZ)).toBe(Number.NEGATIVE_INFINITY);
});

test('a whisper and a shout make clips of the same loudness, under the ceiling', () => {
  for (const gain of [0.00005, 0.001, 0.05, 0.9]) {
    const clip = makeClip(tone(0.6, gain));
    expectClose(loudnessLufs(clip, RATE_HZ), CLIP_LUFS, 0.2, 'LUFS');
    expect(gainToDb(peakOf(clip))).toBeLessThanOrEqual(CEILING_DBFS + 1e-6);
  }
});
