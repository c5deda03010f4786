/** What the handwheel must be told at this moment, derived from a state. */
import type { Phase } from './state.ts';

export interface Guide {
  readonly state: Phase;
  readonly targetDeg: number | null;
  readonly rateDegPerS: number | null;
  /** The last mark that reached the blade, 0 before the first. */
  readonly mark: number;
  readonly nextMark: number | null;
  readonly nextDeg: number | null;
  readonly etaMs: number | null;
  readonly positionMm: number | null;
  readonly uncertaintyMm: number | null;
  readonly tiltDeg?: number;
}
