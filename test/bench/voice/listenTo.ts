/** Runs in a thread: one speaker says the texts, and the ear takes each for one of `choices`. */
import { SAMPLE_RATE_HZ } from '../../../audio/pcm/format.ts';
import { hear, heardAs } from './ear.ts';
import { atPlace, type Place } from './places.ts';
import { clipsBy, type Speaker } from './speakers.ts';

export interface Listening {
  readonly speaker: Speaker;
  readonly texts: readonly string[];
  /** All that the ear may choose from; the texts are among them. */
  readonly choices: readonly string[];
  readonly isProcessed: boolean;
  readonly places: readonly Place[];
  /** How often each text is said, each time in another stretch of the noise. */
  readonly takes: number;
}

export interface Mistake {
  readonly said: string;
  readonly heard: string;
}

export interface Heard {
  readonly place: string;
  readonly said: number;
  readonly mistakes: readonly Mistake[];
}

export interface Listened {
  readonly meanS: number;
  readonly heard: readonly Heard[];
}

export async function listenTo(what: Listening): Promise<Listened> {
  const { speaker, texts, choices, isProcessed, places, takes } = what;
  const clips = await clipsBy(speaker, texts, isProcessed);
  const meanS = clips.reduce((sum, clip) => sum + clip.length, 0) / clips.length / SAMPLE_RATE_HZ;
  const heard: Heard[] = [];
  for (const place of places) {
    const mistakes: Mistake[] = [];
    for (let take = 0; take < takes; take += 1) {
      const taken = await hear(atPlace(clips, place, take), choices);
      texts.forEach((text, i) => {
        if (taken[i] !== heardAs(text)) mistakes.push({ said: heardAs(text), heard: taken[i] ?? '' });
      });
    }
    heard.push({ place: place.name, said: texts.length * takes, mistakes });
  }
  return { meanS, heard };
}
