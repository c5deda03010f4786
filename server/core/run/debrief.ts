/** What a finished (or broken off) run tells afterwards: how far off the tilt was along the frame. */
export interface Debrief {
  /** True where a tilt source spoke, so that errors are known. */
  readonly measured: boolean;
  readonly marks: readonly {
    readonly mark: number;
    readonly positionMm: number;
    readonly wantedDeg: number;
    /** Tilt when the mark was at the blade; null where unknown. */
    readonly hadDeg: number | null;
    readonly reachedAtMs: number | null;
    readonly calledAtMs: number | null;
  }[];
  /** Tilt against position while feeding. */
  readonly trace: readonly { readonly positionMm: number; readonly wantedDeg: number; readonly hadDeg: number }[];
  readonly rmsErrorDeg: number | null;
  readonly worst: { readonly positionMm: number; readonly errorDeg: number } | null;
}
