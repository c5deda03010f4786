/** Why a run is made although its plan forbids the cut: a person's words, as data. */
import { z } from 'zod';
import { DESPITE_CHARS } from '../../core/plan/forbids.ts';

/** Kept and shown as one line of text: white space is one space, and what is unseen or turns the line round is refused. */
export const despite = z
  .string()
  .max(DESPITE_CHARS, `expected at most ${DESPITE_CHARS} characters`)
  .transform((words) => words.trim().replace(/\s+/g, ' '))
  .refine((words) => /[\p{L}\p{N}]/u.test(words), 'expected the reason in words: why the cut may be made all the same')
  .refine((words) => !/\p{C}/u.test(words), 'expected letters, figures and signs only: no unseen characters');
