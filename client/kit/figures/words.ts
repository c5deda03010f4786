/** The few words that every page uses for the same thing. */

import type { RunMode } from '../../../server/core/routine/routine.ts';
import type { Phase } from '../../../server/core/run/engine/state.ts';
import type { Hearing } from '../../../server/wire/message/messages.ts';

export const STATE_WORDS: Readonly<Record<Phase, string>> = {
  ready: 'Ready',
  feeding: 'Feeding',
  stopped: 'Stopped',
  lost: 'Lost',
  finished: 'Finished',
};

export const TURN_WORDS = { more: 'more', less: 'less', same: 'same' } as const;

/** What is to be done when nothing more is heard: said in this order, because the rest may not be read. */
export const WHEN_LOST = ['Stop feed.', 'Hold the tilt.', 'Switch off.'] as const;
export const WHEN_LOST_AFTER = 'Wait until the blade stands. Never back out of a running blade.';

export const HEARING_WORDS: Readonly<Record<Hearing, string>> = {
  loading: 'fetching the words',
  silent: 'sound not confirmed',
  confirmed: 'sound confirmed',
  suspended: 'sound asleep',
};

export const MODE_WORDS: Readonly<Record<RunMode, string>> = { pair: 'pair', solo: 'solo', rehearsal: 'rehearsal' };

/** To the sawyer, before the hand falls behind; and the feed at which it does not. */
export const EASE_THE_FEED = 'Ease the feed';
export const SAFE_NOW = 'safe now';
