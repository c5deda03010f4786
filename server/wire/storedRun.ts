import type { Plan } from '../core/plan.ts';
import type { RunSetup } from '../core/run/state.ts';
import type { FeedChoice } from './journalLine.ts';
import type { Clip } from './messages.ts';

/** What a run is made from; kept with it, so that a restart needs nothing else. */
export interface StoredRun {
  readonly run: string;
  readonly title: string;
  readonly feed: FeedChoice;
  readonly plan: Plan;
  readonly setup: RunSetup;
  readonly clips: readonly Clip[];
  readonly madeAtMs: number;
}
