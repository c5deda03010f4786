/** What is answered, without any work, to what is over a limit. */
import type { Answer } from '../../wire/message/messages.ts';
import { FRAMES_A_SECOND } from './frameRate.ts';
import { READINGS_A_SECOND } from './runRate.ts';

const refusal = (message: string): Answer => ({ ok: false, error: { code: 'too-many', message } });

export const TOO_MANY = refusal(`at most ${FRAMES_A_SECOND} a second`);
export const TOO_MANY_FOR_THE_RUN = refusal(
  `at most ${READINGS_A_SECOND} readings a second for a run, from all its senders together`,
);
