import { FOR_NOISE, makeClip } from '../../../audio/pcm/makeClip.ts';
import { loadEmbedded, type Mouth } from '../../../audio/voice/embedded.ts';
import { VOICE_NAME, WORDS_PER_MIN } from '../../../audio/voice/settings.ts';
import { loadKal16 } from './kal16.ts';

/** One who is listened to. `wordsPerMin` null: kal16, which has one rate. */
export interface Speaker {
  readonly name: string;
  readonly wordsPerMin: number | null;
}

/** The voice and rate that the program speaks by. */
export const OURS: Speaker = { name: VOICE_NAME, wordsPerMin: WORDS_PER_MIN };

export const SPEAKERS: readonly Speaker[] = [
  OURS,
  { name: VOICE_NAME, wordsPerMin: 150 },
  { name: VOICE_NAME, wordsPerMin: 230 },
  { name: 'en-us-nyc', wordsPerMin: 200 },
  { name: 'en-gb-x-rp', wordsPerMin: 200 },
  { name: 'kal16', wordsPerMin: null },
];

export const speakerName = ({ name, wordsPerMin }: Speaker): string =>
  wordsPerMin === null ? name : `${name} ${wordsPerMin}`;

/** The clips of the texts at 22,050 Hz, all equally loud, with our processing or without. */
export async function clipsBy(
  speaker: Speaker,
  texts: readonly string[],
  isProcessed: boolean,
): Promise<readonly Float64Array[]> {
  const { mouth, close } = await open(speaker);
  try {
    return texts.map((text) => makeClip(mouth(text), isProcessed ? FOR_NOISE : null));
  } finally {
    await close();
  }
}

async function open({ name, wordsPerMin }: Speaker): Promise<{ readonly mouth: Mouth; close(): Promise<void> }> {
  if (wordsPerMin === null) return loadKal16();
  return { mouth: await loadEmbedded({ name, wordsPerMin }), close: async () => {} };
}
