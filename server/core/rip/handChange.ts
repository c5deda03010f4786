/** Where a frame's bevel passes from one hand to the other. */
import type { MainHand } from './leadingEnd.ts';

export interface HandChange {
  readonly girthMm: number;
  /** Along the straight outer wedge. */
  readonly stockMm: number;
  /** What the bevel is from there on toward the head. */
  readonly into: 'standing' | 'under';
}

interface Place {
  readonly girthMm: number;
  readonly stockMm: number;
  readonly sawnDeg: number;
}

/** From heel to head. A bevel that passes square by no more than `leastDeg` (half a step of the readout) has not changed hand. */
export function handChanges(places: readonly Place[], leastDeg: number): readonly HandChange[] {
  const changes: HandChange[] = [];
  let hand: MainHand | undefined;
  let last: Place | undefined;
  let crossing: { readonly girthMm: number; readonly stockMm: number } | undefined;
  for (const place of places) {
    if (last !== undefined && Math.sign(last.sawnDeg) !== Math.sign(place.sawnDeg)) crossing = between(last, place);
    if (Math.abs(place.sawnDeg) > leastDeg) {
      const now: MainHand = place.sawnDeg > 0 ? 1 : -1;
      if (hand !== undefined && now !== hand && crossing !== undefined)
        changes.push({ ...crossing, into: now === 1 ? 'standing' : 'under' });
      hand = now;
    }
    last = place;
  }
  return changes;
}

function between(a: Place, b: Place) {
  const share = a.sawnDeg === b.sawnDeg ? 0 : a.sawnDeg / (a.sawnDeg - b.sawnDeg);
  return {
    girthMm: a.girthMm + share * (b.girthMm - a.girthMm),
    stockMm: a.stockMm + share * (b.stockMm - a.stockMm),
  };
}
