/** The keyboard as a source of signals: pedals and hand scanners type, and no field has the focus. */
import {
  type FootInput,
  footStep,
  footWakeAtMs,
  NO_FOOT,
  type PedalSign,
} from '../../../server/core/pedal/footKeptDown.ts';
import { dutyOf, type PedalKeys } from './pedalKeys.ts';
import { NO_SCAN, SCAN_GAP_MS, scanStep } from './scanReader.ts';

interface KeyboardListeners {
  readonly keys: () => PedalKeys;
  /** `atMs` is when the key went down (`performance.now()`). */
  readonly pedal: (sign: PedalSign, atMs: number) => void;
  readonly scan: (text: string) => void;
  /** True where a key belongs to the page itself just now: a field, a button before the run, a lesson of keys. */
  readonly isTaken: (event: KeyboardEvent) => boolean;
  /** True for a character with which mark codes begin: a pedal that types it must wait to be told from a scanner. */
  readonly beginsCode: (key: string) => boolean;
}

type Timer = ReturnType<typeof setTimeout>;

/** Starts listening; gives what stops it. */
export function listenToKeyboard(listeners: KeyboardListeners): () => void {
  let foot = NO_FOOT;
  let scan = NO_SCAN;
  let footTimer: Timer | undefined;
  /** A key that may be the first of a scan; felt, and let go, when no second one comes. */
  let doubtful: { readonly down: Extract<FootInput, { kind: 'down' }>; upMs: number | null; timer: Timer } | undefined;

  function feel(input: FootInput, atMs: number): void {
    const [next, sign] = footStep(foot, input);
    foot = next;
    clearTimeout(footTimer);
    const wakeAtMs = footWakeAtMs(foot);
    if (wakeAtMs !== null)
      footTimer = setTimeout(
        () => feel({ kind: 'woken', atMs: performance.now() }, atMs),
        wakeAtMs - performance.now(),
      );
    if (sign !== null) listeners.pedal(sign, atMs);
  }

  function down(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing || listeners.isTaken(event)) return;
    const duty = dutyOf(listeners.keys(), event.code);
    // A focused button must not be pressed by the foot as well.
    if (duty !== undefined) event.preventDefault();
    if (event.repeat) return;
    const atMs = event.timeStamp;
    const [next, reading] = scanStep(scan, event.key, atMs);
    scan = next;
    if (reading.kind === 'part' || reading.kind === 'scan') {
      clearTimeout(doubtful?.timer);
      doubtful = undefined;
      event.preventDefault();
      if (reading.kind === 'scan') listeners.scan(reading.text);
      return;
    }
    if (duty === undefined) return;
    const input = { kind: 'down', pedal: event.code, duty, atMs } as const;
    const isDoubtful = reading.kind === 'perhaps' && (listeners.beginsCode(event.key) || waits(duty, event.key));
    if (!isDoubtful) {
      feel(input, atMs);
      return;
    }
    settle();
    doubtful = { down: input, upMs: null, timer: setTimeout(settle, SCAN_GAP_MS) };
  }

  function settle(): void {
    const waiting = doubtful;
    doubtful = undefined;
    if (waiting === undefined) return;
    clearTimeout(waiting.timer);
    feel(waiting.down, waiting.down.atMs);
    if (waiting.upMs !== null) feel({ kind: 'up', pedal: waiting.down.pedal, atMs: waiting.upMs }, waiting.upMs);
  }

  function up(event: KeyboardEvent): void {
    if (dutyOf(listeners.keys(), event.code) === undefined || listeners.isTaken(event)) return;
    event.preventDefault();
    if (doubtful?.down.pedal === event.code) {
      doubtful.upMs = event.timeStamp;
      return;
    }
    feel({ kind: 'up', pedal: event.code, atMs: event.timeStamp }, event.timeStamp);
  }

  const release = (): void => feel({ kind: 'released' }, performance.now());
  window.addEventListener('keydown', down, true);
  window.addEventListener('keyup', up, true);
  window.addEventListener('blur', release);
  return () => {
    window.removeEventListener('keydown', down, true);
    window.removeEventListener('keyup', up, true);
    window.removeEventListener('blur', release);
    clearTimeout(footTimer);
    clearTimeout(doubtful?.timer);
  };
}

/** A letter taught for anything but the press can wait for 60 ms; the press and the stop cannot. */
const waits = (duty: string, key: string): boolean => key !== ' ' && duty !== 'press' && duty !== 'stop';
