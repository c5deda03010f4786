/** Evidence worked into a track in the order of time, however late it comes. */

import { rowAt } from '../rowAt.ts';
import { assimilate } from './assimilate.ts';
import { type Evidence, type EvidenceVerdict, emptyPage, type Known, type Track, type TrackPage } from './track.ts';

/** How old a late reading may be, unless so many have come since. */
export const REMEMBERED_MS = 1000;
export const REMEMBERED = 200;

/** A track whose source of travel is believed no longer; what it had told of the place is kept. */
export function forgetCount(track: Track): Track {
  const now = track.now && { ...track.now, count: null };
  return { ...track, now, older: emptyPage(now), forgotten: 0, newer: emptyPage(now) };
}

/** Works one piece of evidence into the track. Late ones are put in their place as long as that is remembered. */
export function assimilateInOrder(
  track: Track,
  evidence: Evidence,
): { readonly track: Track; readonly verdict: EvidenceVerdict } {
  const lastMs = track.now === null ? Number.NEGATIVE_INFINITY : track.now.belief.atMs;
  return evidence.atMs >= lastMs ? append(track, evidence) : insert(track, evidence);
}

function append(track: Track, evidence: Evidence): { track: Track; verdict: EvidenceVerdict } {
  const { known, verdict } = assimilate(track.now, evidence, track.usualMmPerMs);
  let { older, forgotten } = track;
  let newer: TrackPage = { before: track.newer.before, evidence: [...track.newer.evidence, evidence] };
  for (;;) {
    if (forgotten === older.evidence.length) {
      older = newer;
      newer = emptyPage(known);
      forgotten = 0;
    }
    const isFull = older.evidence.length + newer.evidence.length - forgotten > REMEMBERED;
    if (!isFull && rowAt(older.evidence, forgotten).atMs >= evidence.atMs - REMEMBERED_MS) break;
    forgotten += 1;
  }
  return { track: { usualMmPerMs: track.usualMmPerMs, now: known, older, forgotten, newer }, verdict };
}

function insert(track: Track, evidence: Evidence): { track: Track; verdict: EvidenceVerdict } {
  const { before, remembered } = recall(track);
  const oldestMs = before?.belief.atMs ?? (remembered[0]?.atMs ?? Number.POSITIVE_INFINITY) - REMEMBERED_MS;
  if (evidence.atMs < oldestMs) return { track, verdict: 'too-late' };
  const inOrder = [...remembered, evidence].sort((a, b) => a.atMs - b.atMs);
  let now = before;
  let verdict: EvidenceVerdict = 'late';
  for (const each of inOrder) {
    const worked = assimilate(now, each, track.usualMmPerMs);
    now = worked.known;
    if (each === evidence && worked.verdict !== 'taken') verdict = worked.verdict;
  }
  return {
    track: { ...track, now, older: { before, evidence: inOrder }, forgotten: 0, newer: emptyPage(now) },
    verdict,
  };
}

/** What was known before the oldest evidence that is still remembered, and all that is, in its order. */
function recall({ older, forgotten, newer, usualMmPerMs }: Track): {
  before: Known | null;
  remembered: readonly Evidence[];
} {
  let { before } = older;
  for (const gone of older.evidence.slice(0, forgotten)) before = assimilate(before, gone, usualMmPerMs).known;
  return { before, remembered: [...older.evidence.slice(forgotten), ...newer.evidence] };
}
