/** One connection that sends: how much of it is taken within the second, and when the rest is left on the wire. */
import type { Line, Turns } from '../fairTurns.ts';
import { createFrameRate } from './frameRate.ts';

/** With so many pieces waiting nothing more is read; with so few it goes on. */
const FULL = 32;
const LOW = 8;

/** What is read can be held up: whoever sends then waits. */
export interface Tap {
  pause(): void;
  resume(): void;
}

export interface Sender {
  /** `close`: it has sent too much for too long. `refuse`: too much in this second. */
  arrived(chars?: number): 'take' | 'refuse' | 'close';
  /** To be done at its turn, at the expense of this run. */
  do(party: string, work: () => void): void;
  /** Whatever is still on the wire may come. */
  letGo(): void;
}

export function createSender(turns: Turns, tap: Tap): Sender {
  const line: Line = turns.open();
  const rate = createFrameRate();
  let isFull = false;
  let rest: NodeJS.Timeout | undefined;
  let isLetGo = false;

  const goOn = (): void => {
    if (!isFull && rest === undefined) tap.resume();
  };
  return {
    arrived(chars) {
      const nowMs = performance.now();
      const verdict = rate.arrived(nowMs, chars);
      if (verdict === 'refuse' && rest === undefined && !isLetGo) {
        tap.pause();
        rest = setTimeout(() => {
          rest = undefined;
          goOn();
        }, rate.restMs(nowMs));
      }
      return verdict;
    },
    do(party, work) {
      line.add(party, () => {
        try {
          work();
        } finally {
          if (isFull && line.waiting() <= LOW) {
            isFull = false;
            goOn();
          }
        }
      });
      if (isFull || isLetGo || line.waiting() < FULL) return;
      isFull = true;
      tap.pause();
    },
    letGo() {
      isLetGo = true;
      isFull = false;
      clearTimeout(rest);
      rest = undefined;
      tap.resume();
    },
  };
}
