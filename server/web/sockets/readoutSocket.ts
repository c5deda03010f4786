/** `/readout`: what the handwheel must be told, out. */
import type { WebSocket } from 'ws';
import type { RunPort } from '../webPorts.ts';
import { limitIdle } from './farewell.ts';
import type { SocketParts } from './socketParts.ts';

/** With this much unread a guide is left out: a late one is worth nothing, the next comes in a moment. */
const GUIDE_LIMIT_BYTES = 64_000;
const UNREAD_LIMIT_BYTES = 1_000_000;

type ReadoutParts = Pick<SocketParts, 'pulse' | 'turns' | 'clock'>;

export function readoutSocket(socket: WebSocket, run: RunPort, { pulse, turns, clock }: ReadoutParts): void {
  // It has nothing to say, but may try.
  for (const kind of ['ping', 'message'] as const) limitIdle(socket, turns, kind);
  const send = (message: object): void => {
    if (socket.readyState !== socket.OPEN) return;
    if (socket.bufferedAmount > UNREAD_LIMIT_BYTES) socket.close(1013, 'the readout is not being read');
    else socket.send(JSON.stringify(message));
  };
  const endPulse = pulse.follow(run, (guide) => {
    if (socket.bufferedAmount <= GUIDE_LIMIT_BYTES) send({ kind: 'guide', ...guide });
  });
  const unfollow = run.follow({
    call: ({ startsAtMs, ...call }) =>
      send({ kind: 'call', ...call, startsInMs: Math.max(0, Math.round(startsAtMs - clock())) }),
    cancel: (id) => send({ kind: 'cancel', id }),
  });
  socket.on('close', () => {
    endPulse();
    unfollow();
  });
}
