/** From what the voice speaks to what goes to the ear: the one place where the order and the figures of the processing stand. */
import { type Biquad, filter, highPass, highShelf } from './biquad.ts';
import { type Compression, compress } from './compress.ts';
import { fade } from './fade.ts';
import { amplify, dbToGain, peakOf, SAMPLE_RATE_HZ, samplesIn } from './format.ts';
import { limitPeak } from './limitPeak.ts';
import { loudnessLufs } from './loudness.ts';
import { trimSilence } from './silence.ts';

/** The same for every clip: the peaks of compressed speech stand some 15 to 18 dB above it, so that the limiter has little to do. */
export const CLIP_LUFS = -16;
/** No sample above this. */
export const CEILING_DBFS = -1;
/** Rises when anything here changes, so that clips made before are not taken for new ones. */
export const PROCESSING = 2;

const BUTTERWORTH = Math.SQRT1_2;

/** What is done to speech so that it is understood in noise. */
interface Tone {
  readonly highPassHz: number;
  readonly shelfHz: number;
  readonly shelfDb: number;
  readonly compression: Compression;
}
/** As `npm run bench:voice` found it best at equal loudness. */
export const FOR_NOISE: Tone = {
  highPassHz: 250,
  shelfHz: 1200,
  shelfDb: 9,
  compression: { thresholdDb: -34, ratio: 6, attackS: 0.001, releaseS: 0.02 },
};
const BEFORE_COMPRESSION_LUFS = -20;
/** Low enough to keep the onset of an "f"; the lead keeps what lies below it. */
const SILENCE_DB = -42;
const LEAD = samplesIn(0.005);
const TAIL = samplesIn(0.02);

/** A voice that begins at once, without the lead, still does not click. */
const FADE_IN = samplesIn(0.006);
const FADE_OUT = samplesIn(0.014);

const LIMITER_REACH = samplesIn(0.002);
const CLOSE_ENOUGH_LU = 0.1;
const MOST_TURNS = 6;

/**
 * Samples of -1..1 at 22,050 Hz to a clip that starts at once, at the common loudness. Silence gives an empty clip. `tone` null
 * leaves the voice as it is, but for its ends and its loudness.
 */
export function makeClip(spoken: Float64Array, tone: Tone | null = FOR_NOISE): Float64Array {
  const toned = tone === null ? spoken : filtersOf(tone).reduce(filter, spoken);
  const trimmed = trimSilence(toned, { floorDb: SILENCE_DB, lead: LEAD, tail: TAIL });
  if (trimmed.length === 0) return trimmed;
  // First to full scale: what is fainter than the loudness measure hears has no loudness to go by.
  const full = amplify(trimmed, 1 / peakOf(trimmed));
  const set = toLoudness(full, BEFORE_COMPRESSION_LUFS);
  const even = tone === null ? set : compress(set, SAMPLE_RATE_HZ, tone.compression);
  return level(fade(even, FADE_IN, FADE_OUT));
}

const filtersOf = ({ highPassHz, shelfHz, shelfDb }: Tone): readonly Biquad[] => [
  highPass(highPassHz, BUTTERWORTH, SAMPLE_RATE_HZ),
  highShelf(shelfHz, shelfDb, BUTTERWORTH, SAMPLE_RATE_HZ),
];

const toLoudness = (samples: Float64Array, lufs: number): Float64Array =>
  amplify(samples, dbToGain(lufs - loudnessLufs(samples, SAMPLE_RATE_HZ)));

/** Limiting a peak takes a little loudness away; a few turns give it back. */
function level(samples: Float64Array): Float64Array {
  let driveDb = CLIP_LUFS - loudnessLufs(samples, SAMPLE_RATE_HZ);
  for (let turn = 1; ; turn += 1) {
    const levelled = limitPeak(amplify(samples, dbToGain(driveDb)), dbToGain(CEILING_DBFS), LIMITER_REACH);
    const missing = CLIP_LUFS - loudnessLufs(levelled, SAMPLE_RATE_HZ);
    if (Math.abs(missing) < CLOSE_ENOUGH_LU || turn === MOST_TURNS) return levelled;
    driveDb += missing;
  }
}
