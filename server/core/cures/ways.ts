import type { Job } from '../job.ts';
import type { ChangeOfJob } from '../plan/cure.ts';

/** Something that might help: the job so changed. */
export interface Candidate extends ChangeOfJob {
  readonly job: Job;
}
/**
 * Ways of one kind, tried in their order until one helps; `isTogether`: each is a part, offered only if all help. `slower` gives a
 * way again with a slower feed, where all that it brings is that the crew's is too fast for it.
 */
export interface Ways {
  readonly tried: readonly Candidate[];
  readonly isTogether?: boolean;
  readonly slower?: (way: Candidate, feedMPerMin: number) => Candidate;
}

/** Slower than this a blade burns the wood rather than saws it. Common practice, no source. */
export const LEAST_FEED_M_PER_MIN = 0.5;
