import type { Plan } from '../../core/plan/plan.ts';
import type { RunSetup } from '../../core/run/engine/state.ts';
import type { Clip } from '../message/messages.ts';
import type { FeedChoice } from './journalLine.ts';

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

/** What is known of a run beside its lines, even where the run itself cannot be read. */
export interface Seal {
  readonly title: string | null;
  readonly madeAtMs: number | null;
  /** False in a run that was kept before there were checksums: a change of its plan would not be noticed. */
  readonly isChecked: boolean;
  /** False where the second trace of a run is gone or damaged: whether its last lines are missing is then not known. */
  readonly endIsKnown: boolean;
}
