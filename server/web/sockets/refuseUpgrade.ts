import { STATUS_CODES } from 'node:http';
import type { Duplex } from 'node:stream';
import type { Fault } from '../fault.ts';

/** Answers a request for a socket with an error, as plain HTTP, and ends it. */
export function refuseUpgrade(socket: Duplex, { status, error }: Fault): void {
  const body = JSON.stringify({ error });
  socket.on('error', () => {});
  socket.end(
    `HTTP/1.1 ${status} ${STATUS_CODES[status] ?? ''}\r\nConnection: close\r\nContent-Type: application/json; charset=utf-8\r\n` +
      `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`,
  );
}
