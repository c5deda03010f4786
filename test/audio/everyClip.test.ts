import { beforeAll, expect, test, vi } from 'vitest';
import { gainToDb, peakOf, SAMPLE_RATE_HZ } from '../../audio/pcm/format.ts';
import { loudnessLufs } from '../../audio/pcm/loudness.ts';
import { CEILING_DBFS, CLIP_LUFS } from '../../audio/pcm/makeClip.ts';
import { firstSound } from '../../audio/pcm/silence.ts';
import { everyClip, type SpokenClip } from './everyClip.ts';
import { longestSilenceS } from './longestSilence.ts';
import { openOtherMeter } from './otherLoudness.ts';

// Over a thousand clips, each spoken once and then kept; the first time takes most of a minute, longer on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 400_000 });

let clips: readonly SpokenClip[];
beforeAll(async () => {
  clips = await everyClip();
});

/** The clips that do not hold, each with what was found, so that a failure names them all. */
function failing(found: (clip: SpokenClip) => number, holds: (value: number) => boolean): readonly string[] {
  return clips.flatMap((clip) => {
    const value = found(clip);
    return holds(value) ? [] : [`${clip.language} ${clip.text}: ${value}`];
  });
}

test('every quarter degree from 0 to 45, in every form and language, and every phrase has a clip', () => {
  for (const language of ['en', 'de']) {
    // Below one degree German says the same in two forms; no other two are alike in either language.
    expect(clips.filter((clip) => clip.language === language && clip.isFigure).length).toBeGreaterThan(3 * 181 - 200);
    expect(clips.filter((clip) => clip.language === language && !clip.isFigure).length).toBeGreaterThanOrEqual(10);
  }
});

test('all are equally loud within 1 LU, and none goes over the ceiling', () => {
  const loudnesses = clips.map(({ samples }) => loudnessLufs(samples, SAMPLE_RATE_HZ));
  expect(Math.max(...loudnesses) - Math.min(...loudnesses)).toBeLessThan(1);
  expect(loudnesses.reduce((sum, one) => sum + one, 0) / loudnesses.length).toBeCloseTo(CLIP_LUFS, 0);
  expect(
    failing(
      ({ samples }) => gainToDb(peakOf(samples)),
      (db) => db <= CEILING_DBFS + 0.01,
    ),
  ).toEqual([]);
});

/** -54 dB of full scale: under the voice by 38 dB, and by more under the saw. */
const STEP = 0.002;
test('no clip clicks: it comes from silence and goes to silence, by steps of at most -54 dB in its first and last 10 samples', () => {
  const steps = ({ samples }: SpokenClip): number =>
    Math.max(...stepsFromSilence(samples.subarray(0, 10)), ...stepsFromSilence(samples.slice(-10).reverse()));
  expect(failing(steps, (step) => step <= STEP)).toEqual([]);
});

const stepsFromSilence = (samples: Float64Array): number[] =>
  Array.from(samples, (s, i) => Math.abs(s - (samples[i - 1] ?? 0)));

test('the first word starts within 10 ms of the start', () => {
  expect(
    failing(
      ({ samples }) => firstSound(samples, -40) / SAMPLE_RATE_HZ,
      (s) => s >= 0 && s <= 0.01,
    ),
  ).toEqual([]);
});

test('no figure has a gap: nowhere more than 250 ms of silence, 40 dB under its loudest', () => {
  const gap = (clip: SpokenClip): number => (clip.isFigure ? longestSilenceS(clip.samples, SAMPLE_RATE_HZ, -40) : 0);
  expect(failing(gap, (s) => s <= 0.25)).toEqual([]);
});

/** A clip that is under one block of 400 ms is filled up with silence. */
test('loudness agrees within 0.2 LU with the measurement of another (see otherLoudness.ts)', async () => {
  const other = await openOtherMeter();
  const apart = ({ samples }: SpokenClip): number => {
    const filled = new Float32Array(Math.max(samples.length, Math.ceil(0.4 * SAMPLE_RATE_HZ)));
    filled.set(samples);
    return Math.abs(other(filled, SAMPLE_RATE_HZ) - loudnessLufs(samples, SAMPLE_RATE_HZ));
  };
  expect(failing(apart, (lu) => lu <= 0.2)).toEqual([]);
});
