/** A tilt hand and its tilt sensor outside the program, in real time: it hears the calls on `/readout` and turns; `/feed` is told the tilt. */
import { draws } from '../../server/core/numeric/draws.ts';
import type { outsideClient } from './client.ts';

const EVERY_MS = 40;
const NOISE_DEG = 0.03;

export interface LiveHand {
  /** Settles once the hand has heard this mark's call, turned to it and stood a while. */
  until(mark: number): Promise<void>;
  press(): void;
  close(): void;
}

export async function liveHand(
  here: ReturnType<typeof outsideClient>,
  run: string,
  {
    reactionMs,
    degPerMs,
    seed = 1,
  }: { readonly reactionMs: number; readonly degPerMs: number; readonly seed?: number },
): Promise<LiveHand> {
  const draw = draws(seed);
  const feed = await here.socket(`/feed?run=${run}`);
  const readout = await here.socket(`/readout?run=${run}`);
  let turn = { fromDeg: 0, toDeg: 0, beginsMs: 0 };
  const tiltAt = (ms: number): number => {
    const way = turn.toDeg - turn.fromDeg;
    const gone = Math.min(Math.abs(way), Math.max(0, ms - turn.beginsMs) * degPerMs);
    return turn.fromDeg + Math.sign(way) * gone;
  };
  const ticking = setInterval(
    () => feed.send({ kind: 'tilt', deg: tiltAt(performance.now()) + NOISE_DEG * draw.normal() }),
    EVERY_MS,
  );
  const later = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
  return {
    async until(mark) {
      const call = await readout.until((frame) => frame.kind === 'call' && frame.mark === mark);
      const heard = readout.heard.find(({ frame }) => frame === call);
      const overMs = (heard?.atMs ?? 0) + Number(call.startsInMs) + Number(call.durationMs);
      const beginsMs = overMs + reactionMs * Math.exp(0.1 * draw.normal());
      await later(beginsMs - performance.now());
      const [fromDeg, toDeg] = [tiltAt(performance.now()), Number(call.deg)];
      turn = { fromDeg, toDeg, beginsMs };
      await later(Math.abs(toDeg - fromDeg) / degPerMs + 250);
    },
    press: () => feed.send({ kind: 'pedal' }),
    close() {
      clearInterval(ticking);
      feed.close();
      readout.close();
    },
  };
}
