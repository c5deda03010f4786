/** What goes into a simulated run, and what comes out of it. */
import type { HandTraits } from '../hand/traits.ts';
import type { NoticeCode } from '../run/engine/events.ts';
import type { RunSetup } from '../run/engine/state.ts';
import type { ReadoutTable } from '../saw/readout.ts';

export interface Simulation {
  readonly setup: RunSetup;
  readonly sidingMm: number;
  readonly readoutTable: ReadoutTable;
  readonly mPerMin: number;
  readonly seed: number;
  readonly hand: HandTraits;
  /** What tells where the stock is. `shop`: nothing does; the sawyer calls each number as its mark reaches the blade. */
  readonly source: 'travel' | 'travel and scan' | 'scan' | 'press' | 'shop';
  /** In `following`: the hand sees its own tilt to the readout's step, or on a tilt sensor. */
  readonly seesTilt?: 'readout' | 'sensor';
  readonly stops?: readonly Stop[];
  /** What the sources get wrong; the usual figures where nothing is given. */
  readonly faults?: Partial<SourceFaults>;
}

/** The sawyer stands still with the wood at a place. */
export interface Stop {
  readonly atMm: number;
  readonly forMs: number;
  /** He pulls the wood back so far, and has not said "stop". */
  readonly pullBackMm?: number;
  /** From "resume" to the wood moving again. */
  readonly goesOnMs?: number;
}

export interface SourceFaults {
  /** A wheel on wood slips by up to this share either way, and counts with this noise besides (assumptions). */
  readonly slip: number;
  readonly countSdMm: number;
  /** A person presses, or calls, so far from the moment of the mark (standard deviation, assumption). */
  readonly footSdMs: number;
  /** Share of marks that a reader misses, or reads another one after; and how far past its line it reads one (assumptions). */
  readonly missedScans: number;
  readonly falseScans: number;
  readonly scanSdMm: number;
  /** A tilt sensor that was squared before the rip: its offset in a run and its noise (standard deviations, assumptions). */
  readonly tiltOffsetDeg: number;
  readonly tiltSdDeg: number;
}

export const USUAL_FAULTS: SourceFaults = {
  slip: 0.005,
  countSdMm: 0.05,
  footSdMs: 100,
  missedScans: 0.02,
  falseScans: 0.01,
  scanSdMm: 0.5,
  tiltOffsetDeg: 0.03,
  tiltSdDeg: 0.05,
};

export const NO_FAULTS: SourceFaults = {
  slip: 0,
  countSdMm: 0,
  footSdMs: 0,
  missedScans: 0,
  falseScans: 0,
  scanSdMm: 0,
  tiltOffsetDeg: 0,
  tiltSdDeg: 0,
};

export interface Simulated {
  /** Tilt had less tilt wanted, at the blade, over the length of the stock. */
  readonly rmsDeg: number;
  readonly worstDeg: number;
  /** What the worst error leaves between planking and frame, across the siding. */
  readonly worstGapMm: number;
  readonly durationS: number;
  readonly calls: readonly SimulatedCall[];
  readonly missed: readonly { readonly mark: number; readonly reason: string }[];
  /** What was shown on every page. */
  readonly told: readonly { readonly code: NoticeCode; readonly atMs: number }[];
  /** The run's stations in their order: when each was really at the blade first, and how far off the tilt was there. */
  readonly arrivals: readonly Arrival[];
  /** False where the last mark was at the blade and the run did not notice: the sawyer ended it behind that. */
  readonly isFinished: boolean;
}
interface Arrival {
  readonly mark: number;
  readonly atMs: number | null;
  readonly errorDeg: number | null;
}
export interface SimulatedCall {
  readonly mark: number | null;
  readonly deg: number | null;
  readonly text: string;
  readonly startsAtMs: number;
  /** When its words were over, or it was cut off. */
  readonly endsAtMs: number;
  readonly isCutOff: boolean;
  /** Where the wood really was then. */
  readonly startsAtMm: number;
  readonly endsAtMm: number;
  /** When the wood really brought its mark to the blade; null where it never did. */
  readonly arrivedAtMs: number | null;
  /** From the end of its words to its mark at the blade; below zero it was spoken after its deadline. */
  readonly marginMs: number | null;
}
