import type { Warning } from '../core/warning.ts';
import { type Fault, faultLike } from './fault.ts';

/** A run whose plan forbids the cut, and nobody has said why it may be made all the same. */
export function forbiddenFault(warnings: readonly Warning[]): Fault {
  const codes = [...new Set(warnings.map(({ code }) => code))].join(', ');
  const message = `The plan forbids this cut (${codes}), so no run is made. Mend it: each warning says what helps. Or send "despite" with the reason, in words, why it may be made all the same: the record keeps it. A rehearsal saws nothing and is not refused.`;
  return { ...faultLike('forbidden-cut', { code: 'forbidden-cut', message, path: 'despite' }), warnings };
}
