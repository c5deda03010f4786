/** What a loudspeaker is saying, or will say in a moment: one call at a time. */
import type { Playing, Spoken } from './players/player.ts';

interface OfARun {
  readonly run: string;
  readonly id: string;
}

interface CallSpeech {
  /** Begins it at once or, where it is to begin `inMs` from now, then; what is being said meanwhile goes on to its end. */
  say(call: OfARun, spoken: Spoken, inMs: number): void;
  /** It is not said, or not said on. */
  takeBack(call: OfARun): void;
  /** Whatever is being said, or waits, is not said any more. */
  hush(): void;
  /** It speaks, or is about to, for another run than this one. */
  isBusyWithAnother(run: string): boolean;
  isIdle(): boolean;
}

export function createCallSpeech(needs: {
  readonly play: (spoken: Spoken) => Playing;
  /** Before anything is said. */
  readonly onBegin: () => void;
  /** It ended by a fault, and not because it was silenced. */
  readonly onFailed: (call: OfARun, why: string) => void;
}): CallSpeech {
  let saying: (OfARun & { readonly playing: Playing }) | null = null;
  /** A call that waits for its moment. */
  let waiting: (OfARun & { readonly timer: NodeJS.Timeout }) | null = null;

  function begin(call: OfARun, spoken: Spoken): void {
    hush();
    needs.onBegin();
    const said = { ...call, playing: needs.play(spoken) };
    saying = said;
    void said.playing.ended.then((why) => {
      // What was silenced on purpose has not failed.
      if (saying !== said) return;
      saying = null;
      if (why !== null) needs.onFailed(call, why);
    });
  }

  function callOff(): void {
    clearTimeout(waiting?.timer);
    waiting = null;
  }

  function silence(): void {
    const before = saying;
    saying = null;
    before?.playing.stop();
  }

  function hush(): void {
    silence();
    callOff();
  }

  const isOf = (one: OfARun | null, { run, id }: OfARun): boolean => one?.run === run && one.id === id;

  return {
    say(call, spoken, inMs) {
      if (inMs <= 0) {
        begin(call, spoken);
        return;
      }
      callOff();
      waiting = { ...call, timer: setTimeout(() => begin(call, spoken), inMs) };
    },
    takeBack(call) {
      if (isOf(waiting, call)) callOff();
      if (isOf(saying, call)) silence();
    },
    hush,
    isBusyWithAnother: (run) => [saying, waiting].some((other) => other !== null && other.run !== run),
    isIdle: () => saying === null && waiting === null,
  };
}
