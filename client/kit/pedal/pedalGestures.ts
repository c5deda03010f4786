/**
 * What a foot means. A press counts the moment that the key goes down, because the next call starts with it. A foot that
 * stays down means "stop feed": then the press that began it is taken back and the stop is sent. Pure: time comes in.
 */
import { dutyOf, type PedalDuty, type PedalKeys } from './pedalKeys.ts';

/** Longer than any short press of a boot on a pedal, short enough for a stop. */
export const HOLD_MS = 700;
/** A worn switch opens and closes again within this time; no foot does. */
export const BOUNCE_MS = 40;

export type PedalSign = PedalDuty | 'held';

interface PedalState {
  /** The key that is down now; `sinceMs` is when the foot came down, bounces passed over. */
  readonly down: { readonly code: string; readonly sinceMs: number; readonly held: boolean } | null;
  readonly lifted: {
    readonly code: string;
    readonly sinceMs: number;
    readonly held: boolean;
    readonly atMs: number;
  } | null;
}
export const NO_FOOT: PedalState = { down: null, lifted: null };

export type PedalInput =
  | { readonly kind: 'down'; readonly code: string; readonly atMs: number }
  | { readonly kind: 'up'; readonly code: string; readonly atMs: number }
  /** The window lost the keyboard: no `up` will come. */
  | { readonly kind: 'released' }
  | { readonly kind: 'woken'; readonly atMs: number };

type PedalStep = readonly [PedalState, PedalSign | null];

export function pedalStep(state: PedalState, input: PedalInput, keys: PedalKeys): PedalStep {
  switch (input.kind) {
    case 'down':
      return keyDown(state, input.code, input.atMs, keys);
    case 'up': {
      const { down } = state;
      if (down?.code !== input.code) return [state, null];
      return [{ down: null, lifted: { ...down, atMs: input.atMs } }, null];
    }
    case 'released':
      return [NO_FOOT, null];
    case 'woken': {
      const { down } = state;
      const isHold = down !== null && !down.held && input.atMs - down.sinceMs >= HOLD_MS;
      if (!isHold || dutyOf(keys, down.code) !== 'press') return [state, null];
      return [{ ...state, down: { ...down, held: true } }, 'held'];
    }
  }
}

function keyDown(state: PedalState, code: string, atMs: number, keys: PedalKeys): PedalStep {
  const duty = dutyOf(keys, code);
  // A key that is down repeats itself; a second key under the same foot is not a second press.
  if (duty === undefined || state.down?.code === code) return [state, null];
  const { lifted } = state;
  if (lifted?.code === code && atMs - lifted.atMs < BOUNCE_MS)
    return [{ down: { code, sinceMs: lifted.sinceMs, held: lifted.held }, lifted: null }, null];
  return [{ down: { code, sinceMs: atMs, held: false }, lifted: null }, duty];
}

/** When the gesture wants to be looked at again; null: never. */
export function pedalWakeAtMs(state: PedalState, keys: PedalKeys): number | null {
  const { down } = state;
  return down === null || down.held || dutyOf(keys, down.code) !== 'press' ? null : down.sinceMs + HOLD_MS;
}
