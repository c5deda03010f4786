/** A line of a run's journal, as it is kept and as `GET /api/runs/ID/journal` gives it. */

import type { RunMode } from '../../core/routine/routine.ts';
import type { Call, Notice, RunEvent } from '../../core/run/engine/events.ts';
import type { Hearing, Role } from '../message/messages.ts';

/** What the run did, beside what happened to it: kept for the record, passed over when the state is folded. */
type Outcome = { readonly atMs: number } & (
  | {
      readonly kind: 'made';
      readonly mode: RunMode;
      readonly feed: FeedChoice;
      readonly title: string;
      /** Why the run was made although its plan forbids the cut, in a person's words. */
      readonly despite?: string;
    }
  /** A person has squared the blade by the test block, and saw this on the readout. */
  | { readonly kind: 'squared'; readonly seenDeg: number }
  | ({ readonly kind: 'called' } & Call)
  | { readonly kind: 'cancelled'; readonly id: string }
  | { readonly kind: 'missed'; readonly mark: number; readonly reason: string }
  | ({ readonly kind: 'told' } & Notice)
  | { readonly kind: 'listener'; readonly listener: string; readonly role: Role; readonly hearing: Hearing | 'gone' }
  | { readonly kind: 'unplayed'; readonly call: string; readonly listener: string; readonly reason: string }
);
export type FeedChoice =
  | { readonly kind: 'external' }
  | { readonly kind: 'simulated'; readonly mPerMin: number; readonly seed: number };

export type JournalEntry = RunEvent | Outcome;

/** In the place of a line that was kept, and is not there any more or not as it was kept. */
export interface UnreadableEntry {
  readonly kind: 'unreadable';
  /** Of the last line before it that is as it was kept. */
  readonly atMs: number;
  /** `unchecked`: it can be read, but the line before it, which its checksum covers, cannot. */
  readonly what: 'missing' | 'changed' | 'unchecked';
  /** What stands there now, as it stands. */
  readonly found?: string;
}
export type JournalLine = { readonly seq: number } & (JournalEntry | UnreadableEntry);

const OUTCOMES: ReadonlySet<string> = new Set<Outcome['kind']>([
  'made',
  'squared',
  'called',
  'cancelled',
  'missed',
  'told',
  'listener',
  'unplayed',
]);
/** True for what happened to the run, which the state is folded from; false for what the run did. */
export const isEvent = (entry: JournalEntry | UnreadableEntry): entry is RunEvent =>
  !OUTCOMES.has(entry.kind) && entry.kind !== 'unreadable';
