import { expect, test } from 'vitest';
import { makeSetup } from '../../../server/core/run/makeSetup.ts';
import { aJob } from '../../kit/aJob.ts';
import { planned } from '../../kit/planned.ts';

test.each([[0.8], [undefined]])(
  'what the saw takes at most goes from the job by the plan into the run: %s m/min',
  (feedMPerMin) => {
    const plan = planned(aJob({ saw: feedMPerMin === undefined ? {} : { feedMPerMin } }));
    expect(makeSetup(plan, 'pair', {}).sawFeedMPerMin).toBe(feedMPerMin);
  },
);
