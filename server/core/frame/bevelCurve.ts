/** The frame's bevel along its moulded edge. */
export interface BevelCurve {
  bevelAtDeg(girthMm: number): number;
  slopeAtDegPerMm(girthMm: number): number;
}
