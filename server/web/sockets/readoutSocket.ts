/** `/readout`: what the handwheel must be told, out. */
import type { WebSocket } from 'ws';
import type { RunPort } from '../ports.ts';
import type { Pulse } from '../pulse.ts';

/** With this much unread a guide is left out: a late one is worth nothing, the next comes in a moment. */
const GUIDE_LIMIT_BYTES = 64_000;
const UNREAD_LIMIT_BYTES = 1_000_000;

export function readoutSocket(socket: WebSocket, run: RunPort, pulse: Pulse, clock: () => number): void {
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
