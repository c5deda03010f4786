/**
 * A hand scanner types: every character within a few milliseconds of the one before, Enter or Tab at the end. People do not,
 * so that a scan is told from a foot or a finger by its haste, with no field to be clicked into first. Pure: time comes in.
 */

/** The slowest scanners (by radio) need some 40 ms a character; fast typists 80. */
export const SCAN_GAP_MS = 60;

interface ScanState {
  readonly text: string;
  readonly lastAtMs: number;
}
export const NO_SCAN: ScanState = { text: '', lastAtMs: Number.NEGATIVE_INFINITY };

type ScanReading =
  /** Nothing of a scan: the key means what it means. */
  | { readonly kind: 'not-a-scan' }
  /** The first character of a scan, or a key by itself: known after SCAN_GAP_MS. */
  | { readonly kind: 'perhaps' }
  /** Belongs to a scan; nobody else may take it for a press. */
  | { readonly kind: 'part' }
  | { readonly kind: 'scan'; readonly text: string };

export function scanStep(state: ScanState, key: string, atMs: number): readonly [ScanState, ScanReading] {
  const isHasty = atMs - state.lastAtMs <= SCAN_GAP_MS;
  if (key === 'Enter' || key === 'Tab') {
    if (!isHasty || state.text.length < 2) return [NO_SCAN, { kind: 'not-a-scan' }];
    return [NO_SCAN, { kind: 'scan', text: state.text }];
  }
  // Shift and the like are typed by scanners between the characters.
  if (key.length !== 1) return [state, { kind: 'not-a-scan' }];
  // One key twice in haste is a worn switch under a foot, and must reach the pedal: a stop may hang on it. No code of ours begins so.
  if (isHasty && state.text === key) return [{ text: key, lastAtMs: atMs }, { kind: 'not-a-scan' }];
  if (isHasty && state.text !== '') return [{ text: state.text + key, lastAtMs: atMs }, { kind: 'part' }];
  return [{ text: key, lastAtMs: atMs }, { kind: 'perhaps' }];
}
