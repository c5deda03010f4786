import { EventEmitter } from 'node:events';
import type { Server } from 'node:net';
import { expect, test } from 'vitest';
import { keepFewPerAddress } from '../../server/web/fewPerAddress.ts';

/** A server that is told of connections from made-up addresses. */
function aServer(atMost: number) {
  const server = new EventEmitter();
  keepFewPerAddress(server as Server, atMost);
  return (remoteAddress: string) => {
    const socket = Object.assign(new EventEmitter(), { remoteAddress, isDestroyed: false, destroy: () => {} });
    socket.destroy = () => {
      socket.isDestroyed = true;
      socket.emit('close');
    };
    server.emit('connection', socket);
    return socket;
  };
}

test('one address has so many connections and no more; others are not touched, nor is this machine', () => {
  const connect = aServer(3);
  const mine = Array.from({ length: 3 }, () => connect('192.0.2.7'));
  expect(connect('192.0.2.7').isDestroyed).toBe(true);
  expect(connect('192.0.2.8').isDestroyed).toBe(false);
  for (const own of ['127.0.0.1', '::1', '::ffff:127.0.0.1'])
    expect(Array.from({ length: 9 }, () => connect(own)).some(({ isDestroyed }) => isDestroyed)).toBe(false);
  mine[0]?.emit('close');
  expect(connect('192.0.2.7').isDestroyed).toBe(false);
  expect(connect('192.0.2.7').isDestroyed).toBe(true);
});
