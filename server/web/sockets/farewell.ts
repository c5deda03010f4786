/** How a raw socket that sends too much is ended. */
import type { WebSocket } from 'ws';
import type { Turns } from '../fairTurns.ts';
import { FRAMES_A_SECOND, HOT_SECONDS } from './frameRate.ts';
import { createSender, type Sender } from './sender.ts';

/** One that is let go has this long to be told. */
const FAREWELL_MS = 1000;

export const TOO_MUCH = `more than ${FRAMES_A_SECOND} frames a second for ${HOT_SECONDS} seconds`;

/** Closes with a word; what is still on the wire then could keep the loop busy for a long time, and is cut off. */
export function letGo(socket: WebSocket, sender: Sender, code: number, why: string): void {
  sender.letGo();
  socket.close(code, why);
  setTimeout(() => socket.terminate(), FAREWELL_MS).unref();
}

/** Frames that ask for no work are limited as those that do, each kind by itself. */
export function limitIdle(socket: WebSocket, turns: Turns, kind: 'ping' | 'message'): void {
  const sender = createSender(turns, socket);
  socket.on(kind, () => {
    if (sender.arrived() === 'close' && socket.readyState === socket.OPEN) letGo(socket, sender, 1008, TOO_MUCH);
  });
}
