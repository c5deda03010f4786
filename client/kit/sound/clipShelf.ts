import type { Clip } from '../../../server/wire/message/messages.ts';

const RETRY_MS = 1000;
/** So many at a time: a tablet on the shop's network decodes while it fetches. */
const AT_ONCE = 4;

interface ShelfProgress {
  readonly ready: number;
  /** The words that the server has no sound for, or one that cannot be played: it is asked again all the same. */
  readonly refused: readonly string[];
}

/** The phrases of a run, fetched and decoded by their words. */
export class ClipShelf {
  readonly #context: BaseAudioContext;
  readonly #clips = new Map<string, AudioBuffer>();

  constructor(context: BaseAudioContext) {
    this.#context = context;
  }

  get(text: string): AudioBuffer | undefined {
    return this.#clips.get(text);
  }

  /** Settles once every phrase is decoded; tries again for as long as it takes. */
  async load(clips: readonly Clip[], told: (progress: ShelfProgress) => void): Promise<void> {
    const wanted = clips.filter((clip) => !this.#clips.has(clip.text));
    const refused = new Set<string>();
    let ready = clips.length - wanted.length;
    const tell = (): void => told({ ready, refused: [...refused] });
    tell();
    const queue = wanted.values();
    const work = async (): Promise<void> => {
      for (const clip of queue) {
        const buffer = await this.#fetch(clip, () => {
          refused.add(clip.text);
          tell();
        });
        this.#clips.set(clip.text, buffer);
        refused.delete(clip.text);
        ready += 1;
        tell();
      }
    };
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  }

  async #fetch(clip: Clip, onRefused: () => void): Promise<AudioBuffer> {
    for (;;) {
      try {
        const answer = await fetch(clip.url);
        if (answer.ok) return await this.#context.decodeAudioData(await answer.arrayBuffer());
        // A server that is starting again does not answer at all; one that answers so has no such sound.
        onRefused();
      } catch {
        // The server may be restarting.
      }
      await new Promise((settle) => setTimeout(settle, RETRY_MS));
    }
  }
}
