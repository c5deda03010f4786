/** What the pedal's signs do to the run, and what came of the last one. */
import { heldGestures, type PedalSign } from '../../server/core/pedal/footKeptDown.ts';
import type { Phase } from '../../server/core/run/engine/state.ts';
import { heardByAny, isConfirmed } from '../../server/wire/message/heardByAny.ts';
import type { Answer } from '../../server/wire/message/messages.ts';
import type { RunLink } from '../kit/link/runLink.ts';
import { makeStore, type Store } from '../kit/link/store.ts';

export interface PedalDeed {
  /** What was heard, in words. */
  readonly heard: string;
  readonly answer: Answer | null;
  /** The run's state when it was done: what was refused in it says nothing of the next one. */
  readonly phase: Phase;
  /** The pedal or the scanner before the start: nothing is counted, but it was seen. */
  readonly isTrial: boolean;
  readonly atMs: number;
}
export interface Deeds {
  readonly last: Store<{ readonly deed: PedalDeed | null }>;
  pedal(sign: PedalSign): void;
  scan(mark: number): void;
  refuseScan(why: string): void;
  stop(): void;
  start(withoutSound: boolean): void;
  resume(withoutSound: boolean): void;
  finish(): void;
}

/** Asked of everybody at this page; a program outside may start without it, and the record says so. */
const SQUARE_FIRST: Answer = {
  ok: false,
  error: { code: 'square-first', message: 'square the blade at zero first, and say what the readout shows' },
};

/** Asked here first; those who have joined and not confirmed are named by the server. */
const NOBODY_HEARS: Answer = {
  ok: false,
  error: {
    code: 'nobody-hears',
    message: 'Nobody will hear the calls. Confirm the sound on a listener, or start without sound.',
  },
};

export function makeDeeds(link: RunLink): Deeds {
  const last = makeStore<{ readonly deed: PedalDeed | null }>({ deed: null });
  /** Whether the press that a hold began with has been counted: only then there is something to take back. */
  let isPressTaken = false;

  function show(heard: string, asked: Promise<Answer>, isSignal = false): void {
    const phase = link.state.get().view?.state ?? 'ready';
    const deed: PedalDeed = {
      heard,
      answer: null,
      phase,
      isTrial: isSignal && phase === 'ready',
      atMs: performance.now(),
    };
    last.change({ deed });
    void asked.then((answer) => {
      if (last.get().deed === deed) last.change({ deed: { ...deed, answer } });
    });
  }

  const deeds: Deeds = {
    last,
    pedal(sign) {
      switch (sign) {
        case 'press': {
          isPressTaken = false;
          const answered = link.send({ kind: 'pedal' });
          void answered.then((answer) => {
            isPressTaken = answer.ok;
          });
          return show('Press', answered, true);
        }
        case 'again':
          return show('Again', link.send({ kind: 'pedal', gesture: 'again' }), true);
        case 'back':
          return show('Back', link.send({ kind: 'pedal', gesture: 'back' }), true);
        case 'held': {
          const sent = heldGestures(isPressTaken).map((gesture) => link.send({ kind: 'pedal', gesture }));
          isPressTaken = false;
          const stopped = sent.at(-1);
          if (stopped !== undefined) show('Foot kept down: stop feed', stopped, true);
          return;
        }
        case 'stop':
          return deeds.stop();
        case 'resume':
          return link.state.get().view?.state === 'ready' ? deeds.start(false) : deeds.resume(false);
      }
    },
    scan: (mark) => show(`Mark ${mark} scanned`, link.send({ kind: 'mark', mark }), true),
    refuseScan: (message) => show('Scan', Promise.resolve({ ok: false, error: { code: 'scan', message } })),
    stop: () => show('Stop feed', link.command('stop-feed')),
    start(withoutSound) {
      const { square, listeners = [] } = link.state.get().view ?? {};
      if (square?.seenDeg === null) return show('Start', Promise.resolve(SQUARE_FIRST));
      if (!withoutSound && heardByAny(listeners) !== 'bevels' && listeners.every(isConfirmed))
        return show('Start', Promise.resolve(NOBODY_HEARS));
      show('Start', link.command(withoutSound ? 'start-without-sound' : 'start'));
    },
    resume: (withoutSound) => show('Resume', link.command(withoutSound ? 'resume-without-sound' : 'resume')),
    finish: () => show('Finish', link.command('finish')),
  };
  return deeds;
}
