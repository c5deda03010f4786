/** What a tilt hand is learnt from: what was said to it, and how the tilt went. Times in ms on one clock, tilts in degrees. */

export interface HandRecord {
  /** In the order of time. */
  readonly bevels: readonly AskedBevel[];
  /** When the hand was told to hold, or the run ended: what it did behind that answers no call. Rising. */
  readonly heldAtMs: readonly number[];
  /** Rising in time. */
  readonly tilts: readonly TiltReading[];
  /** How the hand had its orders: the routine, and whether anything told the display where the wood is. */
  readonly turns: 'at each call' | 'evenly' | 'by the display';
  readonly degreesPerTurn: number;
  /** How fast the page's own wheel could be turned, where that was the wheel; null with a tilt sensor. */
  readonly pageWheelTurnsPerS: number | null;
}

export interface AskedBevel {
  /** The tilt at which the readout shows the figure that was called. */
  readonly toDeg: number;
  readonly startsAtMs: number;
  /** When its words are over, or it was cut off. */
  readonly overMs: number;
  readonly isHeardOut: boolean;
}

export interface TiltReading {
  readonly atMs: number;
  readonly deg: number;
}
