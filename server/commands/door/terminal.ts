/** Where a command writes: what was asked for to `out`, everything else to `err`. */
export interface Terminal {
  readonly out: { write(text: string): unknown };
  /** `isTTY`: somebody looks at it, so that a line may be overwritten. */
  readonly err: { write(text: string): unknown; readonly isTTY?: boolean };
}
