/**
 * The server's clock as this device sees it. Each probe brackets the server's time between sending and receiving; the error
 * of its midpoint is at most half the round trip, so the probe with the shortest round trip of the last thirty is believed.
 */
export interface Probe {
  readonly sentMs: number;
  readonly serverMs: number;
  readonly receivedMs: number;
}

const KEPT = 30;

export class ServerClock {
  #probes: Probe[] = [];

  add(probe: Probe): void {
    this.#probes = [...this.#probes, probe].slice(-KEPT);
  }

  /** After a device slept, its own clock may have stood still. */
  forget(): void {
    this.#probes = [];
  }

  /** Server time minus local time (`performance.now()`); null until one probe came back. */
  get offsetMs(): number | null {
    const best = this.#best();
    return best === undefined ? null : best.serverMs - (best.sentMs + best.receivedMs) / 2;
  }

  #best(): Probe | undefined {
    return this.#probes.reduce<Probe | undefined>(
      (best, probe) => (best !== undefined && roundTrip(best) <= roundTrip(probe) ? best : probe),
      undefined,
    );
  }
}

const roundTrip = (probe: Probe): number => probe.receivedMs - probe.sentMs;
