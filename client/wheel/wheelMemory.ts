/** Where the wheel of a rehearsal stands, kept by the tab: one that is loaded anew finds its wheel as it left it. */
import type { WheelHand } from './wheelHand.ts';

interface KeptWheel {
  readonly hand: WheelHand;
  /** Whether the hand at this page turned it last. */
  readonly isOurs: boolean;
}

const nameOf = (run: string): string => `by-the-mark.wheel.${run}`;

export function keepWheel(run: string, kept: KeptWheel): void {
  try {
    sessionStorage.setItem(nameOf(run), JSON.stringify(kept));
  } catch {
    // Forbidden or full: then it stands at what the run knows.
  }
}

export function keptWheel(run: string): KeptWheel | null {
  try {
    const kept = JSON.parse(sessionStorage.getItem(nameOf(run)) ?? 'null') as Partial<KeptWheel> | null;
    const { turns, tiltTurns } = kept?.hand ?? {};
    if (!Number.isFinite(turns) || !Number.isFinite(tiltTurns)) return null;
    // A hand that was still pulling has let go.
    const hand = { turns, wantedTurns: turns, tiltTurns } as WheelHand;
    return { hand, isOurs: kept?.isOurs === true };
  } catch {
    return null;
  }
}
