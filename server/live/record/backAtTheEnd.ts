import type { RunState } from '../../core/run/engine/state.ts';
import type { FeedFrame } from '../../wire/message/feedFrame.ts';
import type { Answer } from '../../wire/message/messages.ts';

/** It begins the run again. A run that was opened finished has not been told yet that those who heard it before are not back. */
export const isBackAtTheEnd = ({ phase }: RunState, frame: FeedFrame): boolean =>
  phase === 'finished' && frame.kind === 'pedal' && frame.gesture === 'back';

/** A finished run whose record is damaged is not begun again by a foot: nobody knows how far the wood came. */
export const END_IN_DOUBT: Answer = {
  ok: false,
  error: {
    code: 'place-unknown',
    message: 'the record of this run is damaged, so its last mark cannot be taken back: make a new run',
  },
};
