/**
 * The cue tones: what a call means, for an ear that need not take in a word. Each has a rhythm of its own, so that it is known
 * through an earmuff that changes its pitch or by an ear that has lost its highs. All last at least half a second and lie within
 * 200 to 5000 Hz with their overtones (MIL-STD-1472E 5.3). None is like the alarm, which goes to and fro between two tones.
 */
export type CueName = 'more' | 'less' | 'coming up' | 'reached' | 'too soon';

interface Note {
  /** From the beginning of the cue. */
  readonly atS: number;
  readonly lengthS: number;
  readonly hz: number;
}

export const CUES: Readonly<Record<CueName, readonly Note[]>> = {
  /** Short, short, long, and rising: as a wedge that thickens. */
  more: [
    { atS: 0, lengthS: 0.08, hz: 600 },
    { atS: 0.14, lengthS: 0.08, hz: 800 },
    { atS: 0.28, lengthS: 0.3, hz: 1067 },
  ],
  /** Long, short, short, and falling. */
  less: [
    { atS: 0, lengthS: 0.3, hz: 1067 },
    { atS: 0.36, lengthS: 0.08, hz: 800 },
    { atS: 0.5, lengthS: 0.08, hz: 600 },
  ],
  /** Two knocks, far apart. */
  'coming up': [
    { atS: 0, lengthS: 0.1, hz: 900 },
    { atS: 0.42, lengthS: 0.1, hz: 900 },
  ],
  /** A roll of four: one long tone would begin as the alarm does. */
  reached: [0, 0.16, 0.32, 0.48].map((atS) => ({ atS, lengthS: 0.07, hz: 1350 })),
  /** Short, long, and low: no. */
  'too soon': [
    { atS: 0, lengthS: 0.1, hz: 420 },
    { atS: 0.16, lengthS: 0.4, hz: 315 },
  ],
};

/** Overtones by their share: two octaves of them, so that something of each note lies where the saw leaves room. */
const OVERTONES: readonly number[] = [1, 0.5, 0.35];
/** Rises and falls in so long, as a squared cosine: no click. */
const EDGE_S = 0.008;
/** So that it is as loud as the words, of which every clip has -16 LUFS; a browser test measures it. */
const SIZE = 0.18;

export const cueLengthS = (name: CueName): number =>
  CUES[name].reduce((end, { atS, lengthS }) => Math.max(end, atS + lengthS), 0);

/** The cue's sound, -1 to 1. */
export function cueSamples(name: CueName, rateHz: number): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(Math.ceil(cueLengthS(name) * rateHz));
  for (const { atS, lengthS, hz } of CUES[name]) {
    const first = Math.round(atS * rateHz);
    const count = Math.min(Math.round(lengthS * rateHz), samples.length - first);
    for (let i = 0; i < count; i++) {
      const edge = Math.min(1, Math.min(i, count - 1 - i) / (EDGE_S * rateHz));
      const rise = Math.sin((Math.PI / 2) * edge) ** 2;
      samples[first + i] = SIZE * rise * toneAt(hz, i / rateHz);
    }
  }
  return samples;
}

const toneAt = (hz: number, atS: number): number =>
  OVERTONES.reduce((sum, share, i) => sum + share * Math.sin(2 * Math.PI * hz * (i + 1) * atS), 0);
