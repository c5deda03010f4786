/**
 * Whose tilt a rehearsal's wheel shows: that of the hand at this page, or another page's. A wheel stands where it was left, as one of
 * iron does: no loss, no connection made anew and no page opened anew moves it. Pure, but for what it remembers.
 */

/** For so long after it was last turned here nothing that is told moves it: what is told may be older. */
const TURNED_FOR_MS = 3000;
/** So many of the tilts sent last are known again: more than are under way at a time. */
const KNOWN_AGAIN = 64;

export class WheelOwner {
  /** Whether the hand at this page turned it last. */
  #isOurs: boolean;
  #turnedAtMs = Number.NEGATIVE_INFINITY;
  #sent: number[] = [];
  #heard: { readonly deg: number | undefined } | null = null;

  /** `isOurs`: this page was opened anew, and before that its hand had turned the wheel last. */
  constructor(isOurs: boolean) {
    this.#isOurs = isOurs;
  }

  get isOurs(): boolean {
    return this.#isOurs;
  }

  turned(nowMs: number): void {
    this.#isOurs = true;
    this.#turnedAtMs = nowMs;
  }

  sent(deg: number): void {
    this.#sent = [...this.#sent.slice(1 - KNOWN_AGAIN), deg];
  }

  /** The run tells the tilt that it knows. True where another page has turned the wheel: then it stands there. */
  told(deg: number | undefined, nowMs: number): boolean {
    const before = this.#heard;
    this.#heard = { deg };
    if (deg === undefined || this.wasJustTurned(nowMs)) return false;
    // What was told all along, and what this page itself has sent, is nobody else's turning.
    if (this.#isOurs && (before === null || before.deg === deg || this.#sent.includes(deg))) return false;
    this.#isOurs = false;
    return true;
  }

  wasJustTurned(nowMs: number): boolean {
    return nowMs - this.#turnedAtMs < TURNED_FOR_MS;
  }

  /** Whether this page may tell its tilt: ours, the first of a run, or what the run knows already. Never before the run was heard. */
  maySay(deg: number): boolean {
    if (this.#heard === null) return false;
    return this.#isOurs || this.#heard.deg === undefined || this.#heard.deg === deg;
  }
}
