import { describe } from 'vitest';
import { demoPlan } from '../kit/demoPlan.ts';
import { joinedStrip } from './joined.ts';
import { stripHolds } from './stripSuite.ts';

describe.each(['roll62', 'tape24'] as const)('the mark strip of the demo frame on %s', async (size) => {
  const demo = await demoPlan();
  stripHolds(demo, await joinedStrip(demo, size));
});
