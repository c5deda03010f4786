/**
 * Who listens to a run in progress: the record of it, the place that is kept for who is away for a moment, and what becomes of a call
 * that nobody heard. It is said again while it can still be in time; the ear is lost when it cannot.
 */
import type { RunEffect, RunEvent } from '../../core/run/engine/events.ts';
import type { RunState } from '../../core/run/engine/state.ts';
import { isStillInTime } from '../../core/run/on/heardAgain.ts';
import type { Command, Listener } from '../../wire/message/messages.ts';
import type { WireError } from '../../wire/problem/wireError.ts';
import type { Beside, KeptNotice } from '../record/beside.ts';
import type { createEventWriter } from '../record/eventWriter.ts';
import { type CallWaiting, createEars } from './ears.ts';

/** A lead that is longer or shorter by less is the same lead. */
const WORTH_TELLING_MS = 5;
/** So often one call is said again; a device that can play none of them is no ear. */
const SAID_AGAIN_AT_MOST = 3;

export function createListening(needs: {
  readonly writer: Pick<ReturnType<typeof createEventWriter>, 'now' | 'stamp'>;
  readonly nowMs: () => number;
  readonly state: () => RunState;
  readonly beside: () => Beside;
  readonly take: (event: RunEvent) => void;
  readonly tell: (notice: KeptNotice, atMs: number) => void;
  /** What every page shows has changed. */
  readonly show: () => void;
}) {
  const { writer, nowMs, state, beside, take } = needs;
  const ears = createEars();
  /** Nobody has heard the bevel that was called last: a matter of who is here now, and in no record. */
  let isUnheard = false;

  function change(page: string, listener: Listener | null): void {
    const change = ears.changed(page, listener);
    if (change === null) return;
    const { id, role, hearing: heard } = change.listener;
    if (!change.isOnlyDelay)
      void writer.now([
        { kind: 'listener', atMs: writer.stamp(), listener: id, role, hearing: listener === null ? 'gone' : heard },
      ]);
    const delayMs = ears.slowestMs();
    if (Math.abs(delayMs - state().hearsAfterMs) >= WORTH_TELLING_MS)
      take({ kind: 'heard-after', delayMs, atMs: writer.stamp() });
    tellHeard();
    if (change.isLastEarLost) lose('Nobody can hear the calls any more.');
    needs.show();
  }

  function lose(detail: string): void {
    isUnheard = false;
    if (state().phase === 'feeding') take({ kind: 'signal-lost', lifeline: 'sound', detail, atMs: writer.stamp() });
  }

  /** The record knows at all times what is heard: the state is folded from it. */
  function tellHeard(): void {
    const hears = ears.heard();
    if (hears !== state().hears) take({ kind: 'heard-by', hears, atMs: writer.stamp() });
  }

  function hearing(page: string, listener: Listener | null): void {
    if (listener === null) {
      if (!ears.leftFor(page, nowMs())) change(page, null);
      return;
    }
    change(page, listener);
    sayAgain();
  }

  /** Somebody hears again what nobody heard. */
  function sayAgain(): void {
    const { bevelCall } = beside();
    if (!isUnheard || bevelCall === null || state().phase !== 'feeding' || ears.hearingBevels().length === 0) return;
    if (bevelCall.again >= SAID_AGAIN_AT_MOST) {
      lose('A call could not be played, however often it was said.');
      return;
    }
    isUnheard = false;
    take({ kind: 'unheard', call: bevelCall.id, atMs: writer.stamp() });
  }

  function waiting(): CallWaiting | null {
    if (!isUnheard) return null;
    const isInTime = isStillInTime(state(), writer.stamp());
    if (isInTime === null) return 'not known';
    return isInTime ? 'in time' : 'too late';
  }

  function dropOverdue(): void {
    for (const page of ears.overdue(nowMs(), waiting())) {
      const remember = ears.fellSilent(page);
      change(page, null);
      remember?.();
    }
  }

  return {
    list: ears.list,
    /** Whose sound must be confirmed first: everyone's before the start; in mid-run, where nobody hears at all, of those who are here. */
    notConfirmed(asked: Command): WireError | null {
      const isAsked = asked === 'start' ? state().phase === 'ready' : asked === 'resume' && ears.heard() === 'nobody';
      const deaf = isAsked ? ears.unconfirmed() : [];
      if (deaf.length === 0) return null;
      const names = deaf.map(({ label }) => label).join(', ');
      const message = `the sound is not confirmed at ${names}. Play the test words there, or ${asked} without sound`;
      return { code: 'sound-not-confirmed', message };
    },
    hearing,
    tellHeard,
    beat: dropOverdue,
    /** A page has sent anything at all. */
    alive(page: string): void {
      const returned = ears.alive(page, nowMs());
      if (returned !== null) hearing(page, returned);
    },
    stoodStill: ears.forgive,
    /** To be told of all that the run asks for. */
    follows(effects: readonly RunEffect[]): void {
      for (const effect of effects) {
        if (effect.kind !== 'say' || effect.call.deg === undefined) continue;
        isUnheard = ears.heard() === 'bevels' && ears.hearingBevels().length === 0;
      }
      if (isUnheard) dropOverdue();
    },
    unplayed(page: string, told: { readonly id: string; readonly reason: string }): void {
      const listener = ears.at(page);
      const atMs = writer.stamp();
      void writer.now([{ kind: 'unplayed', atMs, call: told.id, listener: listener?.id ?? page, reason: told.reason }]);
      const { bevelCall } = beside();
      const isBevel = bevelCall?.id === told.id && state().phase === 'feeding';
      if (bevelCall !== null && isBevel && ears.hearingBevels().includes(page)) {
        isUnheard = ears.hearingBevels().every((ear) => bevelCall.unplayedBy.includes(ears.at(ear)?.id ?? ear));
        if (isUnheard) {
          sayAgain();
          return;
        }
      }
      // What another call has taken the place of is missed by nobody.
      if (!isBevel && bevelCall !== null && bevelCall.id !== told.id && state().order?.id !== told.id) return;
      needs.tell(
        {
          code: 'call-missed',
          message: `${listener?.label ?? 'A listener'} could not play a call (${told.reason}). Say the bevel aloud, or use Again to repeat it.`,
        },
        atMs,
      );
    },
  };
}
