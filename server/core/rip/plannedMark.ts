/** One of a plan's marks: what is sawn there, and what comes of it. Lengths in mm, angles in degrees. */
export interface PlannedMark {
  /** 1..n from the heel. */
  readonly mark: number;
  readonly girthMm: number;
  readonly bevelDeg: number;
  readonly sawnDeg: number;
  /** Left between the straight cut and the planking at mid-siding, negative where the cut leaves too much; only from offsets. */
  readonly hollowMm?: number;
  /** What the table of offsets may make the sawn bevel wrong by, one standard deviation; only from offsets. */
  readonly errorDeg?: number;
  /** What the readout must show. */
  readonly callDeg: number;
  readonly yMm: number | null;
  readonly zMm: number | null;
  readonly radiusMm: number | null;
  readonly stockMm: number;
  readonly innerStockMm: number;
  readonly lineTopMm: number;
  readonly lineBottomMm: number;
  /** [forward, aft] */
  readonly outerEdgesMm: readonly [number, number];
  readonly innerEdgesMm: readonly [number, number];
  /** The inner wedge's at this place of the frame: it falls elsewhere on the cut. Plans made before have none. */
  readonly innerInFrameMm?: readonly [number, number];
  /** The bevel that the cut leaves on the inner wedge at this place of the frame, less what it asks; and that across the siding. */
  readonly innerLeftDeg?: number;
  readonly innerLeftMm?: number;
}
