/**
 * The chain of checksums through a run: each line's covers the line, its number and the checksum of the line before, so that a
 * line that is changed, lost, added or moved does not fit its neighbours. SHA-256 (FIPS 180-4), by node:crypto.
 */
import { createHash } from 'node:crypto';

export type Sum = Uint8Array;
/** Bytes of a checksum. */
export const SUM_BYTES = 32;

/** What the checksum of line `seq` covers where no line with a checksum stands before it: at the start, or behind a gap. */
export const sumBefore = (run: string, seq: number): Sum =>
  createHash('sha256').update(`by-the-mark/chain@1\n${run}\n${seq}`).digest();

/** `entry` is the line's text as it is stored. */
export const sumOfLine = (before: Sum, seq: number, entry: string): Sum =>
  createHash('sha256').update(before).update(`${seq}\n`).update(entry).digest();

/** Of anything else that is kept, field by field: JSON parts them, so that nothing can wander from one to the next. */
export const sumOfFields = (fields: readonly (string | number)[]): Sum =>
  createHash('sha256').update(JSON.stringify(fields)).digest();

/** What lies on a disk is not to be trusted. */
export const isSum = (value: unknown): value is Sum => value instanceof Uint8Array && value.length === SUM_BYTES;
export const isSameSum = (a: Sum, b: unknown): boolean => isSum(b) && Buffer.compare(a, b) === 0;
