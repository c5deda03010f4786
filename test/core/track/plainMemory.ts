/**
 * A memory of evidence at its plainest: what was known before it is reckoned anew whenever a reading grows too old. Slower than
 * the track's, and obviously right; the track's must do just the same.
 */

import { assimilate } from '../../../server/core/track/assimilate.ts';
import { REMEMBERED, REMEMBERED_MS } from '../../../server/core/track/outOfOrder.ts';
import type { Evidence, EvidenceVerdict, Known } from '../../../server/core/track/track.ts';

export interface PlainMemory {
  readonly now: Known | null;
  readonly before: Known | null;
  readonly remembered: readonly Evidence[];
}

export const plainMemory: PlainMemory = { now: null, before: null, remembered: [] };

export function weighPlainly(
  memory: PlainMemory,
  evidence: Evidence,
  usualMmPerMs: number,
): { readonly memory: PlainMemory; readonly verdict: EvidenceVerdict } {
  const known = (list: readonly Evidence[], from: Known | null): Known | null =>
    list.reduce<Known | null>((now, each) => assimilate(now, each, usualMmPerMs).known, from);
  if (evidence.atMs >= (memory.now?.belief.atMs ?? Number.NEGATIVE_INFINITY)) {
    const all = [...memory.remembered, evidence];
    const kept = all.findIndex(
      ({ atMs }, index) => all.length - index <= REMEMBERED && atMs >= evidence.atMs - REMEMBERED_MS,
    );
    const { known: now, verdict } = assimilate(memory.now, evidence, usualMmPerMs);
    return {
      memory: { now, before: known(all.slice(0, kept), memory.before), remembered: all.slice(kept) },
      verdict,
    };
  }
  const oldestMs = memory.before?.belief.atMs ?? (memory.remembered[0]?.atMs ?? 0) - REMEMBERED_MS;
  if (evidence.atMs < oldestMs) return { memory, verdict: 'too-late' };
  const remembered = [...memory.remembered, evidence].sort((a, b) => a.atMs - b.atMs);
  const upTo = known(remembered.slice(0, remembered.indexOf(evidence)), memory.before);
  const { verdict } = assimilate(upTo, evidence, usualMmPerMs);
  return {
    memory: { ...memory, now: known(remembered, memory.before), remembered },
    verdict: verdict === 'taken' ? 'late' : verdict,
  };
}
