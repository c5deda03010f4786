/** What the disk refused, or what lies damaged on it, in plain words; where it lies is told in the server's own output only. */
import { type Fault, type FaultCode, fault } from './fault.ts';

const AGAIN = 'nothing of this was kept; what was kept before is safe';

const WORDS = {
  'disk-full': `the disk that holds the data folder is full: ${AGAIN}. Make room there, then do it again`,
  'disk-read-only': `the data folder cannot be written: ${AGAIN}. Give the server's user leave to write there, then do it again`,
  'disk-failed': `the disk that holds the data folder failed: ${AGAIN}. Look after the disk, then start the server again`,
  damaged:
    'what was kept of this is damaged and cannot be read: put back a backup of the data folder, or make the run anew from its job; what is left of its journal can be saved',
} as const satisfies Partial<Record<FaultCode, string>>;
type StorageCode = keyof typeof WORDS;

/** By the codes of the journal and of the system (errno). */
const CODES: Readonly<Record<string, StorageCode>> = {
  full: 'disk-full',
  ENOSPC: 'disk-full',
  EDQUOT: 'disk-full',
  EFBIG: 'disk-full',
  'read-only': 'disk-read-only',
  EROFS: 'disk-read-only',
  EACCES: 'disk-read-only',
  EPERM: 'disk-read-only',
  disk: 'disk-failed',
  EIO: 'disk-failed',
  damaged: 'damaged',
};
/** An error may be told by another one that it caused. */
const DEEPEST = 4;

/** Null where the error is about something else. */
export function storageFault(error: unknown): Fault | null {
  let each = error;
  for (let depth = 0; depth < DEEPEST && each instanceof Error; depth += 1, each = each.cause) {
    const code = 'code' in each && Object.hasOwn(CODES, String(each.code)) ? CODES[String(each.code)] : undefined;
    if (code !== undefined) return fault(code, WORDS[code]);
  }
  return null;
}
