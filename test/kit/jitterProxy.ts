import { once } from 'node:events';
import { connect, createServer, type Socket } from 'node:net';

/**
 * A bad wireless line: everything that goes either way is held for a random time up to `jitterMs`, and comes in its order, as
 * TCP has it: what overtakes waits, and then comes in a burst.
 */
export async function jitterProxy(targetPort: number, jitterMs: number, random: () => number) {
  const sockets = new Set<Socket>();
  let isDead = false;
  const pass = (from: Socket, to: Socket): void => {
    let freeAtMs = 0;
    const held: Buffer[] = [];
    from.on('data', (chunk) => {
      if (isDead) return;
      held.push(chunk);
      freeAtMs = Math.max(freeAtMs, performance.now() + jitterMs * random());
      // Timers count in whole milliseconds and may change places: each lets go of what was held first.
      setTimeout(() => {
        const first = held.shift();
        if (first !== undefined && to.writable) to.write(first);
      }, freeAtMs - performance.now());
    });
    from.on('close', () => setTimeout(() => to.destroy(), jitterMs));
    from.on('error', () => {});
    sockets.add(from);
  };
  const server = createServer((near) => {
    const far = connect(targetPort, '127.0.0.1');
    near.setNoDelay(true);
    far.setNoDelay(true);
    pass(near, far);
    pass(far, near);
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error(`no port: ${address}`);
  return {
    port: address.port,
    /** Every connection breaks; new ones are let through. */
    breakAll(): void {
      for (const socket of sockets) socket.destroy();
      sockets.clear();
    },
    /** The line is dead: nothing comes through any more, and nothing breaks. */
    goDead(): void {
      isDead = true;
    },
    close(): void {
      for (const socket of sockets) socket.destroy();
      server.close();
    },
  };
}
