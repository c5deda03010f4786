/**
 * What must never be in a simulated run. `late repeat`: a bevel that was called in time, and said again (behind a stop) with
 * its mark too near for the words. A call that is cut off is never late: what is heard of it is over in time.
 */
export type WrongKind =
  | 'late'
  | 'late repeat'
  | 'wrong figure'
  | 'wrong mark'
  | 'overlap'
  | 'passed over'
  | 'never finished';
export interface Wrong {
  readonly kind: WrongKind;
  readonly what: string;
}
