/**
 * The server's clock as this device sees it. Whatever the server stamps was on its way when it came, so that its time was at
 * least that by then; and an answer that bears a time came after its question, so that its time was at most that when the
 * question left. Between the two bounds lies the truth: the middle is wrong by half of what is between them at most, which is
 * never more than half the shortest round trip, and with thirty stamps a second soon much less than that.
 */
interface Probe {
  readonly sentMs: number;
  readonly serverMs: number;
  readonly receivedMs: number;
}

/** A bound is the best of the last one to two such spans: two clocks drift apart by some milliseconds meanwhile (100 ppm). */
const SPAN_MS = 60_000;
/** Bounds that contradict each other by more than a drift can: one of the two clocks was set, or slept. Begin anew. */
const CONTRADICTION_MS = 30;

export class ServerClock {
  /** What the offset is at least. */
  #least = new Greatest();
  /** What minus the offset is at least. */
  #lessMost = new Greatest();

  /** A question and its answer. */
  add({ sentMs, serverMs, receivedMs }: Probe): void {
    this.#lessMost.add(sentMs - serverMs, receivedMs);
    this.heard(serverMs, receivedMs);
  }

  /** Anything that the server stamped before it sent it. */
  heard(serverMs: number, receivedMs: number): void {
    const bound = serverMs - receivedMs;
    this.#least.add(bound, receivedMs);
    const most = this.#lessMost.best;
    if (most === null || (this.#least.best ?? bound) <= -most + CONTRADICTION_MS) return;
    this.forget();
    this.#least.add(bound, receivedMs);
  }

  /** After a device slept, its own clock may have stood still. */
  forget(): void {
    this.#least = new Greatest();
    this.#lessMost = new Greatest();
  }

  /** Server time minus local time (`performance.now()`); null until anything was heard. Until a question is answered, the least. */
  get offsetMs(): number | null {
    const least = this.#least.best;
    const most = this.#lessMost.best;
    if (least === null || most === null) return least;
    return (least - most) / 2;
  }
}

/** The greatest of what was added lately, without keeping it all: of the span that runs and of the one before it. */
class Greatest {
  #sinceMs = Number.NEGATIVE_INFINITY;
  #now: number | null = null;
  #before: number | null = null;

  add(value: number, atMs: number): void {
    if (atMs - this.#sinceMs > SPAN_MS) {
      this.#before = this.#now;
      this.#now = null;
      this.#sinceMs = atMs;
    }
    this.#now = Math.max(value, this.#now ?? value);
  }

  get best(): number | null {
    return this.#before === null ? this.#now : Math.max(this.#before, this.#now ?? this.#before);
  }
}
