/**
 * Pedals that tell only that a foot came down and went up: the program makes the press of it, and of a foot that stays down
 * the stop. One foot a connection. What it makes is taken like any other frame of that connection.
 */
import { type Foot, footStep, footWakeAtMs, heldGestures, NO_FOOT } from '../core/pedal/footKeptDown.ts';
import type { FootFrame, ReadingFrame } from '../wire/message/feedFrame.ts';
import type { Answer } from '../wire/message/messages.ts';
import type { RunAlarm } from './runAlarm.ts';

/** Frames that had to wait come together: an `up` this soon behind its old `down` is waited for. */
const BEHIND_MS = 100;
const PEDAL = 'the one of this connection';

type Press = Extract<ReadingFrame, { kind: 'pedal' }>;
interface Standing {
  foot: Foot;
  /** The `down` that the press was made of, and whether it was counted. */
  press: { readonly frame: FootFrame; isCounted: boolean } | null;
  callOff: () => void;
}

export function createFeet(needs: {
  readonly nowMs: () => number;
  readonly alarm: RunAlarm;
  readonly take: (source: string, press: Press) => Promise<Answer>;
  /** The run's last line, for frames that set nothing off. */
  readonly seq: () => number;
  /** True while the wood moves. */
  readonly isFed: () => boolean;
  readonly report: (error: unknown) => void;
}) {
  const { nowMs, alarm, take, seq, isFed, report } = needs;
  const feet = new Map<string, Standing>();

  function standing(source: string): Standing {
    const known = feet.get(source) ?? { foot: NO_FOOT, press: null, callOff: () => {} };
    feet.set(source, known);
    return known;
  }

  function watch(source: string, one: Standing, soonestMs: number): void {
    one.callOff();
    const wakeAtMs = footWakeAtMs(one.foot);
    if (wakeAtMs === null) return;
    one.callOff = alarm(Math.max(wakeAtMs, soonestMs), () => {
      const [foot, sign] = footStep(one.foot, { kind: 'woken', atMs: nowMs() });
      one.foot = foot;
      if (sign === null) watch(source, one, 0);
      else void held(source, one);
    });
  }

  function press(source: string, one: Standing, frame: FootFrame): Promise<Answer> {
    const made = { frame, isCounted: false };
    one.press = made;
    const answer = take(source, { ...ownOf(frame), kind: 'pedal' });
    return answer.then((told) => {
      made.isCounted = told.ok;
      return told;
    });
  }

  function held(source: string, { press: made }: Standing): Promise<Answer> {
    const id = made?.frame.id === undefined ? {} : { id: made.frame.id };
    let answer = passedOver();
    for (const gesture of heldGestures(made?.isCounted ?? false)) {
      try {
        answer = take(source, { kind: 'pedal', gesture, ...id });
      } catch (error) {
        // Whatever is wrong with taking the press back, the stop is said.
        if (gesture === 'stop') throw error;
        report(error);
      }
    }
    return answer;
  }

  const passedOver = (): Promise<Answer> => Promise.resolve({ ok: true, seq: seq() });

  return {
    take(source: string, frame: FootFrame): Promise<Answer> {
      const one = standing(source);
      const atMs = nowMs() - (frame.ageMs ?? 0);
      const [foot, sign] = footStep(one.foot, { kind: frame.gesture, pedal: PEDAL, duty: 'press', atMs });
      if (frame.gesture === 'down' && foot === one.foot) return Promise.resolve(DOWN_ALREADY);
      one.foot = foot;
      watch(source, one, nowMs() + BEHIND_MS);
      if (sign === null) return passedOver();
      return sign === 'held' ? held(source, one) : press(source, one, frame);
    },
    /** Nobody will tell whether that foot meant a press or a stop: the press stands, and the feed is stopped. */
    closed(source: string): void {
      const one = feet.get(source);
      feet.delete(source);
      one?.callOff();
      if (one === undefined || footWakeAtMs(one.foot) === null || !isFed()) return;
      void take(source, { kind: 'pedal', gesture: 'stop' });
    },
    close(): void {
      for (const { callOff } of feet.values()) callOff();
    },
  };
}

const ownOf = ({ id, ageMs }: FootFrame): Pick<Press, 'id' | 'ageMs'> => ({
  ...(id === undefined ? {} : { id }),
  ...(ageMs === undefined ? {} : { ageMs }),
});

const DOWN_ALREADY: Answer = {
  ok: false,
  error: { code: 'down-already', message: 'this pedal is down already: send "up" when the foot is lifted' },
};
