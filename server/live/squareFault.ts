/** Why a reading at the square cannot be kept; null where it can. */
import { degText } from '../core/figures/degrees.ts';
import type { Plan } from '../core/plan/plan.ts';
import { isSquare, squareDeg } from '../core/plan/squareAtZero.ts';
import type { Phase } from '../core/run/engine/state.ts';
import type { WireError } from '../wire/problem/wireError.ts';

export function squareFault(phase: Phase, saw: Plan['saw'], seenDeg: number): WireError | null {
  if (phase !== 'ready')
    return { code: 'already-started', message: `the run is ${phase} already: the blade is squared before the start` };
  if (isSquare(saw, seenDeg)) return null;
  const [seen, wanted] = [seenDeg, squareDeg(saw)].map((deg) => degText(deg, 2));
  return {
    code: 'not-square',
    message: `the readout shows ${seen} where the blade is square, and this run was made for ${wanted}: set the readout, or make the run anew for what it shows`,
  };
}
