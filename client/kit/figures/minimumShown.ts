/** A sign that does not flicker: it comes at once, stays for a while at least, and goes when its reason has been gone for a moment. */
export class HeldSign {
  readonly #leastMs: number;
  readonly #goneMs: number;
  #onSinceMs: number | null = null;
  #lastReasonMs = 0;

  constructor({ leastMs, goneMs }: { readonly leastMs: number; readonly goneMs: number }) {
    this.#leastMs = leastMs;
    this.#goneMs = goneMs;
  }

  at(hasReason: boolean, nowMs: number): boolean {
    if (hasReason) {
      this.#onSinceMs ??= nowMs;
      this.#lastReasonMs = nowMs;
    } else if (
      this.#onSinceMs !== null &&
      nowMs - this.#onSinceMs >= this.#leastMs &&
      nowMs - this.#lastReasonMs >= this.#goneMs
    )
      this.#onSinceMs = null;
    return this.#onSinceMs !== null;
  }

  forget(): void {
    this.#onSinceMs = null;
  }
}
