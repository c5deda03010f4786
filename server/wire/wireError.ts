/** An error as every door of the server tells it. */
export interface WireError {
  /** Stable; what a program acts on. */
  readonly code: string;
  /** What is wrong, where, and what to do. */
  readonly message: string;
  readonly path?: string;
}
