/** Beats come every 200 ms; so long without one, and the server counts as gone. With the margin it is told within half a second. */
const SILENCE_MS = 430;
/** A page that was busy finds its beats waiting behind the timer: it looks once more before it raises the alarm. */
const SECOND_LOOK_MS = 20;
/** The timer itself was late by more: the page was busy, and what came meanwhile is still to be looked through. */
const BUSY_MS = 50;
const LOOK_AFTER_BUSY_MS = 250;

/** Calls `silent` once the beats stop. `beat` arms it again. */
export class BeatWatch {
  readonly #silent: () => void;
  #lastMs = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(silent: () => void) {
    this.#silent = silent;
  }

  beat(): void {
    this.#lastMs = performance.now();
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#lookAgain(), SILENCE_MS);
  }

  stop(): void {
    clearTimeout(this.#timer);
  }

  #lookAgain(): void {
    const seenMs = this.#lastMs;
    const isBusy = performance.now() - this.#lastMs > SILENCE_MS + BUSY_MS;
    this.#timer = setTimeout(
      () => {
        if (this.#lastMs === seenMs) this.#silent();
      },
      isBusy ? LOOK_AFTER_BUSY_MS : SECOND_LOOK_MS,
    );
  }
}
