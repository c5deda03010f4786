/** Where the stock is and how fast it goes, from whatever tells it. Plain data, so that it survives a trip through JSON. */
import type { Belief } from './kalman.ts';

export type Evidence =
  /** The stock is at a place: a scanned mark, or a person's press. */
  | { readonly kind: 'fix'; readonly by: 'scan' | 'press'; readonly atMs: number; readonly positionMm: number }
  /** A count of travel since any zero. */
  | { readonly kind: 'count'; readonly atMs: number; readonly mm: number }
  /** A person has stopped the feed, or says that it goes on. */
  | { readonly kind: 'standing'; readonly atMs: number }
  | { readonly kind: 'moving'; readonly atMs: number };

/**
 * `late`: older than what was known, and worked in; `too-late`: older than what is remembered; `false`: an absolute reading that
 * cannot be so; `restarted`: a count that its source began anew.
 */
export type EvidenceVerdict = 'taken' | 'late' | 'too-late' | 'false' | 'restarted';

export interface Track {
  /** The feed that is usual here, mm/ms: what is believed before anything is known of the speed. */
  readonly usualMmPerMs: number;
  /** What is known at the last evidence; null before the first. */
  readonly now: Known | null;
  /** What is remembered, so that a late reading can be put in its place; of the older page so many of the first are too old for that. */
  readonly older: TrackPage;
  readonly forgotten: number;
  readonly newer: TrackPage;
}

/**
 * A stretch of evidence, in the order of time. Two of them in turn: so that what was known before the oldest that is remembered
 * need not be reckoned anew with every reading, but only when a late one comes.
 */
export interface TrackPage {
  /** What was known before its first evidence. */
  readonly before: Known | null;
  readonly evidence: readonly Evidence[];
}

export interface Known {
  readonly belief: Belief;
  readonly isStanding: boolean;
  /** The speed when the stock last moved: what it is believed to take up again. */
  readonly cruiseMmPerMs: number;
  readonly count: { readonly mm: number; readonly atMs: number; readonly everyMs: number | null } | null;
  readonly fix: { readonly atMs: number; readonly by: 'scan' | 'press' } | null;
  /** Fixes of the last second, to tell a camera from a hand scanner. */
  readonly recentFixesMs: readonly number[];
  /** How far a camera's fixes lie to one side of what was expected, the newest first and the older ones fading, in standard deviations. */
  readonly lean: number;
  /** Absolute readings that were taken for false and agree with each other so far. */
  readonly refused: readonly { readonly positionMm: number; readonly atMs: number }[];
}

export const emptyPage = (before: Known | null): TrackPage => ({ before, evidence: [] });

export const startTrack = (usualMmPerMs: number): Track => ({
  usualMmPerMs,
  now: null,
  older: emptyPage(null),
  forgotten: 0,
  newer: emptyPage(null),
});
