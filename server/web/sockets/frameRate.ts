/** How many frames one raw socket may send. */
import { FRAME_LIMIT_CHARS } from '../../wire/message/feedFrame.ts';

/** The contract: more than this many a second for `HOT_SECONDS` ends the connection. */
export const FRAMES_A_SECOND = 200;
export const HOT_SECONDS = 5;
/** What is taken in one second at most; more is refused, and the rest of a flood left on the wire. A stalled sender may catch up this much. */
const TAKEN_A_SECOND = FRAMES_A_SECOND * HOT_SECONDS;

export type FrameVerdict = 'take' | 'refuse' | 'close';

interface FrameRate {
  /** `chars`: an over-long frame costs as much as several, and is taken for as many within its second. */
  arrived(nowMs: number, chars?: number): FrameVerdict;
  /** Until the next second begins. */
  restMs(nowMs: number): number;
}

/** Judges each frame by when it came, in ms of any steady clock. Seconds are counted from the first frame. */
export function createFrameRate(): FrameRate {
  let second = -1;
  let startMs = 0;
  let count = 0;
  let taken = 0;
  let hotSeconds = 0;
  const arrived = (nowMs: number, chars = 0): FrameVerdict => {
    if (second === -1) startMs = nowMs;
    const now = Math.floor((nowMs - startMs) / 1000);
    if (now !== second) {
      hotSeconds = now === second + 1 && count > FRAMES_A_SECOND ? hotSeconds + 1 : 0;
      second = now;
      count = 0;
      taken = 0;
    }
    count += 1;
    taken += Math.max(1, Math.ceil(chars / FRAME_LIMIT_CHARS));
    if (hotSeconds >= HOT_SECONDS) return 'close';
    return taken > TAKEN_A_SECOND ? 'refuse' : 'take';
  };
  return { arrived, restMs: (nowMs) => 1000 - ((nowMs - startMs) % 1000) };
}
