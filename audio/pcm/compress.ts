import { dbToGain, gainToDb } from './format.ts';

export interface Compression {
  /** dBFS from which on the gain is held back. */
  readonly thresholdDb: number;
  readonly ratio: number;
  readonly attackS: number;
  readonly releaseS: number;
}

/**
 * Brings loud vowels down toward weak consonants, so that both stand above the saw: a feed-forward compressor with a
 * one-pole envelope of the rectified signal (Giannoulis, Massberg, Reiss, "Digital dynamic range compressor design",
 * J. Audio Eng. Soc. 60(6), 2012, from memory). No make-up gain: the clip is levelled afterwards.
 */
export function compress(samples: Float64Array, rateHz: number, how: Compression): Float64Array {
  const attack = Math.exp(-1 / (how.attackS * rateHz));
  const release = Math.exp(-1 / (how.releaseS * rateHz));
  let envelope = 0;
  return samples.map((sample) => {
    const level = Math.abs(sample);
    const hold = level > envelope ? attack : release;
    envelope = hold * envelope + (1 - hold) * level;
    const overDb = gainToDb(envelope) - how.thresholdDb;
    return overDb > 0 ? sample * dbToGain(overDb / how.ratio - overDb) : sample;
  });
}
