/** Where a command writes: what was asked for to `out`, everything else to `err`. */
export interface Terminal {
  readonly out: { write(text: string): unknown };
  readonly err: { write(text: string): unknown };
}
