/** How many connections one machine of the network may have open; this machine's own are not counted. */
import type { Server } from 'node:net';

/** Pages, their sockets and sensors of one machine come to some dozens. */
const CONNECTIONS_AN_ADDRESS = 256;

const LOOPBACK = /^(?:::ffff:)?127\.|^::1$/;

/** Ends what is over the limit as it comes in, so that nobody can take all the connections there are. */
export function keepFewPerAddress(server: Server, atMost = CONNECTIONS_AN_ADDRESS): void {
  const open = new Map<string, number>();
  server.on('connection', (socket) => {
    const from = socket.remoteAddress ?? '';
    if (LOOPBACK.test(from)) return;
    const count = (open.get(from) ?? 0) + 1;
    open.set(from, count);
    socket.once('close', () => {
      const left = (open.get(from) ?? 1) - 1;
      if (left === 0) open.delete(from);
      else open.set(from, left);
    });
    if (count > atMost) socket.destroy();
  });
}
