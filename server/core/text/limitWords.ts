/** What limits the feed, in words: "limited by", "because of" and the like stand before them. */

import type { PaceLimit } from '../routine/limits.ts';

export const LIMIT_WORDS: Readonly<Record<PaceLimit, string>> = {
  words: 'the time that the call takes',
  reaction: 'the time to react',
  wheel: 'the time to turn the wheel',
  twist: 'how fast the blade can follow the twist',
  saw: 'the saw',
};
