/** Bevels that a table of offsets does not tell well enough to be sawn by it alone. */

import { tenthsDegText } from '../figures/degrees.ts';
import { everyMarkText } from '../figures/markRanges.ts';
import type { Warning } from '../warning.ts';

/** What fits badly enough to be seen: half a millimetre over a siding of 30. Our own choice, no source. */
const WARNED_FROM_DEG = 1;

interface MarkWithError {
  readonly mark: number;
  readonly sawnDeg: number;
  readonly errorDeg?: number;
}

/** At most one, which names every such mark. */
export function uncertainBevelWarnings(marks: readonly MarkWithError[]): Warning[] {
  const uncertain = marks.flatMap(({ mark, sawnDeg, errorDeg = 0 }) =>
    errorDeg >= WARNED_FROM_DEG ? [{ mark, sawnDeg, errorDeg }] : [],
  );
  const [first] = uncertain;
  if (first === undefined) return [];
  const worst = uncertain.reduce((a, b) => (b.errorDeg > a.errorDeg ? b : a), first);
  const unsure = uncertain.filter(({ sawnDeg, errorDeg }) => Math.abs(sawnDeg) < 2 * errorDeg);
  const at = uncertain.length === 1 ? '' : ` at mark ${worst.mark}`;
  const hand =
    unsure.length === 0 ? '' : ` Whether it is standing or under is not certain at ${everyMarkText(unsure)}.`;
  const message =
    `The offsets do not tell the bevel well at ${everyMarkText(uncertain)}: it may be ${tenthsDegText(worst.errorDeg)} wrong${at}, seldom more than twice that. ` +
    `Their figures are too coarse there, or their points too far apart.${hand} Measure the bevel there on the boat or on the loft floor before it is sawn.`;
  return [{ code: 'uncertain-bevel', message }];
}
