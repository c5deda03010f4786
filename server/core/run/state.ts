/** The state of a run: the fold of its events. Plain data, so that it survives a trip through JSON unchanged. */
import type { Call, Notice } from './events.ts';

export type Phase = 'ready' | 'feeding' | 'stopped' | 'lost' | 'finished';

export type RunMode = 'pair' | 'solo' | 'rehearsal';

/** A mark in the order in which it comes to the blade. */
export interface Station {
  readonly mark: number;
  /** Along the straight stock from the first mark of the run. */
  readonly positionMm: number;
  /** The exact tilt there, positive as the saw's tilt is (hand x sawn bevel). */
  readonly tiltDeg: number;
  /** What is called: the readout's figure. */
  readonly callDeg: number;
}

/** What a run is made with; never changes while it lasts. */
export interface RunSetup {
  readonly mode: RunMode;
  /** In the order of the run, at least two. */
  readonly stations: readonly Station[];
  /** The words of the call for each station, in the same order. */
  readonly callTexts: readonly string[];
  /** How long each phrase of the run lasts as rendered, by its words. */
  readonly durationsMs: Readonly<Record<string, number>>;
  readonly crew: { readonly reactionS: number; readonly turnsPerS: number };
  readonly degreesPerTurn: number;
}

/** How the engine knows where the stock is: by marks only (pressed or scanned), or by a source that counts travel. */
export interface Reckoning {
  readonly by: 'press' | 'scan' | 'travel';
  /** Position at `atMs`. */
  readonly positionMm: number;
  readonly atMs: number;
  /** Smoothed; null until two readings have told it. */
  readonly speedMmPerMs: number | null;
  /** One standard deviation, honest rather than small. */
  readonly uncertaintyMm: number;
  /** Last count of a travel source, and the count that is position 0; null until one has spoken. */
  readonly travel: { readonly lastMm: number; readonly zeroMm: number; readonly lastAtMs: number } | null;
  /** The farthest position so far, to notice pulling back. */
  readonly farthestMm: number;
}

export interface RunState {
  readonly setup: RunSetup;
  readonly phase: Phase;
  /** How many stations have reached the blade: 0 before the first, stations.length after the last. */
  readonly reached: number;
  /** Index of the station whose bevel was last called (what is being turned to); -1 before the start. */
  readonly turningTo: number;
  readonly reckoning: Reckoning | null;
  /** What is being said, or is about to be; null once its time is over. */
  readonly speaking: Call | null;
  /** How many calls have been given out; the next call's id is made from it. */
  readonly calls: number;
  readonly notice: Notice | null;
  readonly tilt: { readonly deg: number; readonly atMs: number } | null;
  /** When the engine next wants to be woken; null: never. */
  readonly wakeAtMs: number | null;
}
