/** What is told where the record cannot be written. */
import type { Notice } from '../core/run/engine/events.ts';

export const notKept = (message: string): Notice<'not-kept'> => ({
  code: 'not-kept',
  message: `The record cannot be written, so nothing more is called: ${message} Stop feed. Hold the tilt. Switch off.`,
});
