import type { Draws } from '../../server/core/numeric/draws.ts';
import type { Stop } from '../../server/core/simulate/simulation.ts';

/** Up to two stops anywhere on the stock, a third of them with the wood pulled back instead of a word. */
export function randomStops(draw: Draws, lengthMm: number): readonly Stop[] {
  return Array.from({ length: Math.floor(3 * draw.even()) }, () => 0.05 + 0.9 * draw.even())
    .sort((a, b) => a - b)
    .map((share) => ({
      atMm: share * lengthMm,
      forMs: 500 + 4000 * draw.even(),
      goesOnMs: 200 + 1800 * draw.even(),
      ...(draw.even() < 1 / 3 ? { pullBackMm: 3 + 57 * draw.even() } : {}),
    }));
}
