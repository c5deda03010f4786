/** The pointer: the tilt wanted for the wood that is at the blade in this frame, and with a tilt sensor how far off the blade is. */

import { tiltAt } from '../../server/core/run/engine/profile.ts';
import type { RunSetup } from '../../server/core/run/engine/state.ts';
import type { Guide } from '../../server/core/run/view/guide.ts';
import { type ReadoutTable, shownDeg } from '../../server/core/saw/readout.ts';
import type { Shown } from '../kit/plank/woodMotion.ts';

/** An error that nothing more is heard of says nothing of now. The sensor itself may be silent for as long (see guide.ts). */
const FRESH_MS = 500;
/** The mark of the tilt had glides to what is told by this time constant: a sensor's steps do not make it hop. */
const GLIDE_MS = 50;

/** All angles are the readout's, as the hand sees them. */
export interface Pointed extends Shown {
  readonly tiltDeg: number;
  /** Tilt had less tilt wanted; null without a fresh tilt sensor. */
  readonly errorDeg: number | null;
}

export class Pointer {
  readonly #setup: RunSetup;
  readonly #table: ReadoutTable;
  #toldAtMs = Number.NEGATIVE_INFINITY;
  #told: { readonly errorDeg: number | null; readonly heardMs: number } | null = null;
  #errorDeg: number | null = null;
  #frameMs = 0;

  constructor(setup: RunSetup, table: ReadoutTable) {
    this.#setup = setup;
    this.#table = table;
  }

  told(guide: Pick<Guide, 'atMs' | 'targetDeg' | 'tiltDeg' | 'errorDeg'>, nowMs: number): void {
    if (guide.atMs <= this.#toldAtMs) return;
    this.#toldAtMs = guide.atMs;
    const { targetDeg, tiltDeg, errorDeg } = guide;
    const isMeasured = errorDeg !== undefined && tiltDeg !== undefined && targetDeg !== null;
    this.#told = {
      // Both of the same moment: against the tilt wanted in this frame, a sensor's delay would pass for an error of the hand.
      errorDeg: isMeasured ? shownDeg(tiltDeg, this.#table) - shownDeg(targetDeg, this.#table) : null,
      heardMs: nowMs,
    };
  }

  forget(): void {
    this.#toldAtMs = Number.NEGATIVE_INFINITY;
  }

  frame(shown: Shown, nowMs: number): Pointed {
    const sinceMs = nowMs - this.#frameMs;
    this.#frameMs = nowMs;
    const told = this.#told !== null && nowMs - this.#told.heardMs < FRESH_MS ? this.#told.errorDeg : null;
    const before = this.#errorDeg;
    this.#errorDeg = told === null || before === null ? told : told + (before - told) * Math.exp(-sinceMs / GLIDE_MS);
    return {
      ...shown,
      tiltDeg: shownDeg(tiltAt(this.#setup, shown.positionMm), this.#table),
      errorDeg: shown.isLive ? this.#errorDeg : null,
    };
  }
}
