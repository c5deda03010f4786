/**
 * The square at zero: what the readout shows where the blade stands square by the test block, and a plan whose calls are shifted by
 * what it shows too much or too little.
 *
 * A readout that stands off at zero stands off by as much everywhere (its zero has slipped; what is off otherwise is in the readout
 * table): every reading of the table is moved by it, and the calls are made anew from the tilts.
 */

import { callFor, type ReadoutTable, shownDeg } from '../saw/readout.ts';
import type { Plan } from './plan.ts';

/** What the readout shows where the blade is square, as the plan takes it: a plain 0 unless a table or a shift says otherwise. */
export const squareDeg = ({ readoutTable }: { readonly readoutTable: ReadoutTable }): number =>
  shownDeg(0, readoutTable) + 0;

/** A reading nearer than this to what it should be is what it should be: a quarter of the readout's step. */
export const isSquare = (saw: Plan['saw'], seenDeg: number): boolean =>
  Math.abs(seenDeg - squareDeg(saw)) <= saw.readoutDeg / 4 + 1e-9;

/** The same plan for a readout that shows `seenDeg` where the blade is square. Times and limits stay: words and turns hardly change. */
export function withSquare(plan: Plan, seenDeg: number): Plan {
  const shiftDeg = seenDeg - squareDeg(plan.saw);
  const { readoutTable: table } = plan.saw;
  const readoutTable: ReadoutTable =
    table.length === 0 ? [[seenDeg, 0]] : table.map(([shown, trueDeg]) => [shown + shiftDeg, trueDeg] as const);
  const saw = { ...plan.saw, readoutTable, squareDeg: seenDeg };
  return {
    ...plan,
    saw,
    marks: plan.marks.map((mark) => ({ ...mark, callDeg: callFor(saw, plan.hand * mark.sawnDeg) })),
    ...(plan.sawTruth === undefined ? {} : { sawTruth: { ...plan.sawTruth, squareShowsDeg: seenDeg } }),
  };
}
