/** What every clip is: one channel, 22,050 samples a second (what the embedded voice speaks in), 16 bits. */
export const SAMPLE_RATE_HZ = 22_050;

export const samplesIn = (seconds: number): number => Math.round(seconds * SAMPLE_RATE_HZ);
export const dbToGain = (db: number): number => 10 ** (db / 20);
export const gainToDb = (gain: number): number => 20 * Math.log10(gain);

/** 16-bit samples to -1..1. */
export const fromInt16 = (samples: Int16Array): Float64Array => new Float64Array(samples).map((s) => s / 32_768);

/** -1..1 to 16-bit samples; what lies outside is cut off at full scale. */
export const toInt16 = (samples: Float64Array): Int16Array =>
  new Int16Array(samples.map((s) => Math.max(-32_768, Math.min(32_767, Math.round(s * 32_768)))));

export const peakOf = (samples: Float64Array): number => samples.reduce((most, s) => Math.max(most, Math.abs(s)), 0);
export const amplify = (samples: Float64Array, gain: number): Float64Array => samples.map((s) => s * gain);
