/**
 * What a foot on a pedal means. A press counts the moment that the foot comes down, because the next call starts with it. A
 * foot that stays down means "stop feed": then the press that it began with is taken back and the stop is sent.
 * Times are ms of one clock of the caller's.
 */

/** Longer than any short press of a boot on a pedal, short enough for a stop. */
export const HOLD_MS = 700;
/** A worn switch opens and closes again within this time; no foot does. */
export const BOUNCE_MS = 40;

/** What a pedal, or one key of it, is there for. Only a foot kept down on the press is a stop. */
export type PedalDuty = 'press' | 'again' | 'back' | 'resume' | 'stop';
export type PedalSign = PedalDuty | 'held';

interface FootDown {
  readonly pedal: string;
  readonly duty: PedalDuty;
  /** When the foot came down, bounces passed over. */
  readonly sinceMs: number;
  readonly held: boolean;
}
export interface Foot {
  readonly down: FootDown | null;
  readonly lifted: (FootDown & { readonly atMs: number }) | null;
}
export const NO_FOOT: Foot = { down: null, lifted: null };

/** `pedal` tells one pedal, or one of its keys, from another. */
export type FootInput =
  | { readonly kind: 'down'; readonly pedal: string; readonly duty: PedalDuty; readonly atMs: number }
  | { readonly kind: 'up'; readonly pedal: string; readonly atMs: number }
  /** No `up` will come, for instance because the window lost the keyboard. */
  | { readonly kind: 'released' }
  | { readonly kind: 'woken'; readonly atMs: number };

type FootStep = readonly [Foot, PedalSign | null];

/** An input that changes nothing gives back the same foot. */
export function footStep(foot: Foot, input: FootInput): FootStep {
  const { down } = foot;
  switch (input.kind) {
    case 'down':
      return cameDown(foot, input);
    case 'up': {
      if (down?.pedal !== input.pedal) return [foot, null];
      // Whoever should have looked at the hold time was late: the foot did stay down.
      const isHold = isHeldBy(down, input.atMs);
      return [{ down: null, lifted: { ...down, held: down.held || isHold, atMs: input.atMs } }, isHold ? 'held' : null];
    }
    case 'released':
      return [NO_FOOT, null];
    case 'woken':
      if (down === null || !isHeldBy(down, input.atMs)) return [foot, null];
      return [{ ...foot, down: { ...down, held: true } }, 'held'];
  }
}

/** True the first time that the hold is seen. */
const isHeldBy = ({ duty, held, sinceMs }: FootDown, atMs: number): boolean =>
  duty === 'press' && !held && atMs - sinceMs >= HOLD_MS;

function cameDown(foot: Foot, { pedal, duty, atMs }: Extract<FootInput, { kind: 'down' }>): FootStep {
  // A key that is down repeats itself.
  if (foot.down?.pedal === pedal) return [foot, null];
  const { lifted } = foot;
  if (lifted?.pedal === pedal && atMs - lifted.atMs < BOUNCE_MS)
    return [{ down: { pedal, duty, sinceMs: lifted.sinceMs, held: lifted.held }, lifted: null }, null];
  return [{ down: { pedal, duty, sinceMs: atMs, held: false }, lifted: null }, duty];
}

/** When the foot wants to be looked at again (`woken`); null: it is not on its way to a hold. */
export function footWakeAtMs({ down }: Foot): number | null {
  return down === null || down.held || down.duty !== 'press' ? null : down.sinceMs + HOLD_MS;
}

/**
 * What `held` does to the run. Only a press that was counted is taken back, and that first: the stop cuts off the call which
 * taking back gives out.
 */
export const heldGestures = (isPressCounted: boolean): readonly ('back' | 'stop')[] =>
  isPressCounted ? ['back', 'stop'] : ['stop'];
