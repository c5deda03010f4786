/** What is found of a frame beside its bevels: doubtful readings, what its table of offsets tells, how the two agree. */
import type { MovedPoint } from '../hull/fairOffsets.ts';

/** A row of the pick-up as it stands beside the fair curve. */
export interface FairedRow {
  readonly girthMm: number;
  readonly bevelDeg: number;
  readonly suspect: boolean;
}

export interface Suspect {
  /** Counted from the first data row = 1. */
  readonly row: number;
  readonly girthMm: number;
  readonly foundDeg: number;
  readonly fairDeg: number;
  readonly reason: string;
}

/** A row that is in the curve and wants another reading at the same girth. */
export interface MeasureAgain {
  readonly row: number;
  readonly girthMm: number;
  readonly foundDeg: number;
  /** What the other rows lead to there. */
  readonly othersDeg: number;
  readonly reason: string;
}

/** What the table of offsets tells of the frame beside its bevels. */
export interface OffsetsPlan {
  readonly file: string;
  readonly atMm: number;
  readonly cantDeg: number;
  readonly plankingMm: number;
  /** The moulded edge from heel to head, in the frame's own plane. */
  readonly edge: readonly { readonly girthMm: number; readonly yMm: number; readonly zMm: number }[];
  readonly knuckles: readonly { readonly girthMm: number; readonly belowDeg: number; readonly aboveDeg: number }[];
  /** Where the straight cut stands farthest off the planking at mid-siding. */
  readonly hollow: { readonly mostMm: number; readonly girthMm: number };
  /** How far a plain stack, without bevelled wedges, would run off the frame's plane; positive aft. */
  readonly runOff: {
    readonly places: readonly { readonly girthMm: number; readonly offMm: number }[];
    readonly atHeadMm: number;
    readonly slopeAtHead: number;
  };
  readonly fairing: { readonly toleranceMm: number; readonly moved: readonly MovedPoint[] };
}

export interface PickUpAgainst {
  readonly atMm: number;
  /** The girth that the offsets give the frame. */
  readonly girthMm: number;
  /** Picked up (and faired) less the offsets' tangent bevels. */
  readonly meanDeg: number;
  readonly rmsDeg: number;
  /** Where along the boat the offsets come nearest to what was picked up. */
  readonly bestAtMm: number;
  readonly bestRmsDeg: number;
  readonly rows: readonly {
    readonly girthMm: number;
    readonly pickedUpDeg: number;
    readonly offsetsDeg: number;
    readonly suspect: boolean;
  }[];
  /** The frames before and after, of the job's list. */
  readonly neighbours: readonly { readonly atMm: number; readonly rmsDeg: number }[];
}
