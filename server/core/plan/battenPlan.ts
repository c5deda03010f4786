/** The girths of the marks on the batten that they were picked up with. */

import type { Job } from '../job.ts';
import { lastRow } from '../rowAt.ts';
import type { RipPlan } from './ripPlan.ts';

/** What taking the batten out came to, for the plan: nothing where there was none. */
export function battenPlan(marked: Job, taken: Job): Pick<RipPlan, 'batten'> {
  if (marked.shape.kind !== 'pick-up' || taken.shape.kind !== 'pick-up') return {};
  const { battenMm: thicknessMm, rows } = marked.shape;
  if (thicknessMm === undefined) return {};
  return { batten: { thicknessMm, atHeadMm: lastRow(taken.shape.rows).girthMm - lastRow(rows).girthMm } };
}
