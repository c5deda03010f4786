/**
 * The heart of a run in progress: hands each event to the engine, makes it durable, and only then lets what follows from it leave.
 * Everything here is synchronous but the timers, so that events are taken strictly one at a time.
 */
import type { RunEffect, RunEvent } from '../core/run/engine/events.ts';
import type { RunState } from '../core/run/engine/state.ts';
import { step } from '../core/run/step.ts';
import type { JournalEntry } from '../wire/kept/journalLine.ts';
import type { Answer } from '../wire/message/messages.ts';
import type { LiveRunNeeds } from './livePorts.ts';
import { notKept } from './notKept.ts';
import { outcome } from './outcome.ts';
import { isStop } from './record/asEvent.ts';
import { type Beside, besideAfter } from './record/beside.ts';
import { createEventWriter } from './record/eventWriter.ts';
import { createAlarm } from './runAlarm.ts';

export type NotTaken = Extract<RunEffect, { kind: 'refuse' }>;

export function takeEvents(needs: {
  readonly live: LiveRunNeeds;
  readonly run: string;
  /** Where its record leads to. */
  readonly back: {
    readonly state: RunState;
    readonly beside: Beside;
    readonly last: { readonly seq: number; readonly atMs: number };
  };
  /** An event was not taken: the state is as before. */
  readonly onRefused: (event: RunEvent, refusal: NotTaken) => void;
  /** The run is another one now, and asks for this. */
  readonly onTaken: (effects: readonly RunEffect[]) => void;
}) {
  const { live, run, back, onRefused, onTaken } = needs;
  const { nowMs, ownTime, report, onPhase } = live;
  let { state, beside } = back;
  let callOffWake = (): void => {};
  const writer = createEventWriter({
    ...live,
    run,
    last: back.last,
    onTaken: (entries) => {
      beside = entries.reduce(besideAfter, beside);
    },
    onBroken: tellNotKept,
  });
  const alarm = createAlarm({ nowMs, onFault });

  /** Takes one event; `group` lets readings that set nothing off wait a few milliseconds and be committed together. */
  function take(event: RunEvent, when: 'now' | 'group' = 'now'): Promise<Answer> {
    const [next, effects] = step(state, event);
    const refusal = effects.find((effect) => effect.kind === 'refuse');
    if (refusal !== undefined) return refused(event, refusal);
    if (event.kind === 'woken' && effects.length === 0) {
      goOnWith(next);
      return Promise.resolve({ ok: true, seq: writer.seq() });
    }
    const entries: JournalEntry[] = [event, ...effects.flatMap((effect) => outcome(effect, event.atMs))];
    const toldBefore = beside.notices;
    const isQuiet = effects.length === 0 && next.phase === state.phase && next.reached === state.reached;
    const kept = when === 'group' && isQuiet ? writer.group(entries) : writer.now(entries);
    if (!writer.isSound()) {
      // What cannot be kept is not called; but a person's stop wins over everything, the record included.
      if (!isStop(event)) return kept;
      show(next, effects);
      return Promise.resolve({ ok: true, kept: false });
    }
    if (isQuiet && next.notice === state.notice && beside.notices === toldBefore) goOnWith(next);
    else show(next, effects);
    return kept;
  }

  function refused(event: RunEvent, refusal: NotTaken): Promise<Answer> {
    onRefused(event, refusal);
    return Promise.resolve({ ok: false, error: { code: refusal.code, message: refusal.message } });
  }

  function show(next: RunState, effects: readonly RunEffect[]): void {
    const isOther = next.phase !== state.phase;
    goOnWith(next);
    onTaken(effects);
    if (isOther) onPhase?.();
  }

  function goOnWith(next: RunState): void {
    state = next;
    rearm();
  }

  function rearm(): void {
    callOffWake();
    if (state.wakeAtMs !== null) callOffWake = alarm(state.wakeAtMs, wake);
  }

  function wake(): void {
    ownTime.look();
    void take({ kind: 'woken', atMs: writer.stamp() });
  }

  /** The journal has failed: the run is lost, said aloud and shown, although it cannot be written down. */
  function tellNotKept(message: string): void {
    const atMs = nowMs();
    const [lost, effects] = step(state, { kind: 'signal-lost', lifeline: 'sound', detail: '', atMs });
    const notice = notKept(message);
    show({ ...lost, notice, wakeAtMs: null }, [
      ...effects.filter(({ kind }) => kind !== 'tell'),
      { kind: 'tell', notice },
    ]);
  }

  /** The run is lost, and that is said, rather than silent for good. */
  function onFault(error: unknown): void {
    report(error);
    void lose('sound', 'The program met a fault and cannot say when the next call is due.');
  }

  function lose(lifeline: 'travel' | 'sound' | 'server', detail: string): Promise<Answer> {
    return take({ kind: 'signal-lost', lifeline, detail, atMs: writer.stamp() });
  }

  return {
    state: (): RunState => state,
    beside: (): Beside => beside,
    writer,
    alarm,
    take,
    lose,
    /** To be called once, when nothing was to be taken at the opening. */
    rearm,
    close(): void {
      callOffWake();
      writer.flush();
    },
  };
}
