import type { Clip } from '../../server/wire/messages.ts';

const RETRY_MS = 1000;
/** So many at a time: a tablet on the shop's network decodes while it fetches. */
const AT_ONCE = 4;

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

  /** Settles once every phrase is decoded; tries again for as long as it takes. `told` hears how many are ready. */
  async load(clips: readonly Clip[], told: (ready: number) => void): Promise<void> {
    const wanted = clips.filter((clip) => !this.#clips.has(clip.text));
    let ready = clips.length - wanted.length;
    told(ready);
    const queue = wanted.values();
    const work = async (): Promise<void> => {
      for (const clip of queue) {
        this.#clips.set(clip.text, await this.#fetch(clip));
        ready += 1;
        told(ready);
      }
    };
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  }

  async #fetch(clip: Clip): Promise<AudioBuffer> {
    for (;;) {
      try {
        const answer = await fetch(clip.url);
        if (answer.ok) return await this.#context.decodeAudioData(await answer.arrayBuffer());
      } catch {
        // The server may be restarting.
      }
      await new Promise((settle) => setTimeout(settle, RETRY_MS));
    }
  }
}
