/**
 * Fair turns at the event loop. What senders ask is done piece by piece: next is always the run that has had least of the time
 * lately, and of its senders the one that has. So a flood waits for itself, and a run beside it waits for one piece of it.
 */

/** Work for so long at a time; then timers and sockets have their turn. */
const TURN_MS = 2;
/**
 * While some wait, the loop goes round so often without any of it: each connection is read once a round, and one that sends
 * within its rights must not fall behind because the pieces of another take long.
 */
const ROUNDS_BETWEEN = 8;
/** What was had counts half after this time. */
const HALF_LIFE_MS = 500;

/** The pieces that one sender has waiting; they are done in their order. */
export interface Line {
  /** `party`: the run that pays for it. */
  add(party: string, work: () => void): void;
  waiting(): number;
}

export interface Turns {
  open(): Line;
  /** One piece by itself; settles with what it gives. */
  take<T>(party: string, work: () => T | Promise<T>): Promise<T>;
}

interface Piece {
  readonly party: string;
  readonly work: () => void;
}
interface Sender {
  spentMs: number;
  /** When `spentMs` was last brought up to now. */
  atMs: number;
  readonly pieces: Piece[];
}
interface Party {
  spentMs: number;
  atMs: number;
}

/** `report`: told of a piece that threw. `nowMs`: any steady clock. */
export function createTurns(report: (error: unknown) => void, nowMs = (): number => performance.now()): Turns {
  const waiting = new Set<Sender>();
  const parties = new Map<string, Party>();
  let turnSpentMs = 0;
  let isPumping = false;
  let roundsLeft = 0;

  const had = (one: { spentMs: number; atMs: number } | undefined, now: number): number =>
    one === undefined ? 0 : one.spentMs * 0.5 ** ((now - one.atMs) / HALF_LIFE_MS);
  const charge = (one: { spentMs: number; atMs: number }, now: number, ms: number): void => {
    one.spentMs = had(one, now) + ms;
    one.atMs = now;
  };

  function doPiece(sender: Sender, { party, work }: Piece): void {
    const beganMs = nowMs();
    try {
      work();
    } catch (error) {
      report(error);
    }
    const now = nowMs();
    const tookMs = now - beganMs;
    turnSpentMs += tookMs;
    charge(sender, now, tookMs);
    const paying = parties.get(party) ?? { spentMs: 0, atMs: now };
    parties.set(party, paying);
    charge(paying, now, tookMs);
  }

  function nextSender(now: number): Sender | undefined {
    let next: Sender | undefined;
    let least: readonly [number, number] = [Number.POSITIVE_INFINITY, 0];
    for (const sender of waiting) {
      const party = had(parties.get(sender.pieces[0]?.party ?? ''), now);
      const own = had(sender, now);
      if (party > least[0] || (party === least[0] && own >= least[1])) continue;
      next = sender;
      least = [party, own];
    }
    return next;
  }

  function work(): void {
    while (turnSpentMs < TURN_MS) {
      const sender = nextSender(nowMs());
      const piece = sender?.pieces.shift();
      if (sender === undefined || piece === undefined) break;
      if (sender.pieces.length === 0) waiting.delete(sender);
      doPiece(sender, piece);
    }
    roundsLeft = waiting.size > 0 ? ROUNDS_BETWEEN : 0;
  }

  function pump(): void {
    turnSpentMs = 0;
    if (roundsLeft > 0) roundsLeft -= 1;
    else work();
    isPumping = waiting.size > 0 || turnSpentMs > 0;
    if (isPumping) setImmediate(pump);
    else forgetIdle();
  }

  function forgetIdle(): void {
    const now = nowMs();
    for (const [name, party] of parties) if (had(party, now) < 0.01) parties.delete(name);
  }

  function add(sender: Sender, piece: Piece): void {
    const isFree = waiting.size === 0 && turnSpentMs < TURN_MS;
    if (!isPumping) {
      isPumping = true;
      setImmediate(pump);
    }
    // Nobody waits: then a press need not either.
    if (isFree) doPiece(sender, piece);
    else {
      sender.pieces.push(piece);
      waiting.add(sender);
    }
  }

  const newSender = (): Sender => ({ spentMs: 0, atMs: 0, pieces: [] });
  return {
    open() {
      const sender = newSender();
      return { add: (party, work) => add(sender, { party, work }), waiting: () => sender.pieces.length };
    },
    take: (party, work) =>
      new Promise((resolve, reject) => {
        const settle = (): void => {
          try {
            resolve(work());
          } catch (error) {
            reject(error);
          }
        };
        add(newSender(), { party, work: settle });
      }),
  };
}
