/** Everything that can go wrong with the journal, once. `code` is stable; the message says what is wrong and what to do. */

export type JournalErrorCode =
  /** Another writer has appended since the caller last looked. */
  | 'conflict'
  | 'no-such-run'
  | 'run-exists'
  /** An entry that could not be read back; nothing of its group was kept. */
  | 'bad-entry'
  /** Another program holds this data folder. */
  | 'in-use'
  /** Written by a newer program than this one. */
  | 'too-new'
  /** A file that is not a journal of this program. */
  | 'not-a-journal'
  | 'cannot-open'
  | 'read-only'
  | 'full'
  | 'damaged'
  /** The disk refused, for a reason that it alone knows. */
  | 'disk'
  | 'closed';

export class JournalError extends Error {
  override readonly name = 'JournalError';
  readonly code: JournalErrorCode;
  constructor(code: JournalErrorCode, message: string, options?: { readonly cause: unknown }) {
    super(message, options);
    this.code = code;
  }
}
