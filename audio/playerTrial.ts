import { toldDelayMs } from '../server/core/hearing/earLimits.ts';
import type { Player, Playing, Spoken } from './players/player.ts';

/** `cut off`: a call came, and was said in place of the test words. */
type Tried =
  | { readonly kind: 'heard'; readonly player: Player; readonly delayMs: number }
  | { readonly kind: 'failed'; readonly why: string }
  | { readonly kind: 'cut off' };

/** Plays test words, by the next player too if the first cannot. */
export function createPlayerTrial(players: readonly Player[]) {
  /** The test words while they are heard. */
  let trying: Playing | null = null;

  return {
    async try(words: Spoken): Promise<Tried> {
      const whys: string[] = [];
      for (const player of players) {
        const beganMs = performance.now();
        const playing = player.play(words);
        trying = playing;
        const why = await playing.ended;
        if (trying !== playing) return { kind: 'cut off' };
        trying = null;
        if (why === null)
          return { kind: 'heard', player, delayMs: toldDelayMs(performance.now() - beganMs - words.durationMs) };
        whys.push(`${player.name}: ${why}`);
      }
      return { kind: 'failed', why: whys.join('; ') };
    },
    cutOff(): void {
      const before = trying;
      trying = null;
      before?.stop();
    },
  };
}
