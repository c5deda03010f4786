/** The raw WebSockets: `/feed` and `/readout`. */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { type WebSocket, WebSocketServer } from 'ws';
import { FRAME_LIMIT_CHARS } from '../../wire/message/feedFrame.ts';
import { RIGHTS } from '../access/rights.ts';
import { type Fault, fault } from '../fault.ts';
import { atFixedIntervals } from '../fixedInterval.ts';
import { pathOf, queryOf } from '../requestKey.ts';
import { storageFault } from '../storageFault.ts';
import { feedSocket } from './feedSocket.ts';
import { readoutSocket } from './readoutSocket.ts';
import { refuseUpgrade } from './refuseUpgrade.ts';
import type { SocketParts } from './socketParts.ts';

/** A frame over this ends the connection (1009); one over `FRAME_LIMIT_CHARS` is answered with an error. */
const PAYLOAD_LIMIT_BYTES = 16 * FRAME_LIMIT_CHARS;
/** A peer that has not answered a ping by the next one is gone. */
const PING_MS = 5000;

interface RawSockets {
  upgrade(req: IncomingMessage, socket: Duplex, head: Buffer): void;
  close(): void;
}

export function createRawSockets(parts: SocketParts): RawSockets {
  const { ports, access, door, turns, runTakes, report } = parts;
  const sockets = new WebSocketServer({
    noServer: true,
    perMessageDeflate: false,
    maxPayload: PAYLOAD_LIMIT_BYTES,
    // One frame of a connection in each turn of the event loop, however many came at once.
    allowSynchronousEvents: false,
  });
  const devices = new Map<WebSocket, string>();
  const silent = new WeakSet<WebSocket>();
  let count = 0;

  access.onRevoked((device) => {
    for (const [socket, holder] of devices) if (holder === device) socket.close(1008, 'this key has been revoked');
  });
  const endPings = atFixedIntervals(PING_MS, () => {
    for (const socket of sockets.clients) {
      if (silent.has(socket)) socket.terminate();
      silent.add(socket);
      if (socket.readyState === socket.OPEN) socket.ping();
    }
  });

  const accept = (req: IncomingMessage, socket: Duplex, head: Buffer): Fault | null => {
    const screened = door.screen(req);
    if (screened !== null) return screened;
    const admission = door.admit(req);
    if (!admission.ok) return admission.fault;
    const { holder } = admission;
    const rights = RIGHTS[holder.role];
    if (!rights.raw) return fault('not-allowed', `a ${holder.role} key does not open this address`);
    const id = queryOf(req).get('run');
    const run = id === null ? undefined : ports.run(id);
    if (run === undefined) return fault('no-such-run', 'there is no such run: name one with ?run=ID');

    sockets.handleUpgrade(req, socket, head, (ws) => {
      if (holder.device !== undefined) devices.set(ws, holder.device);
      ws.on('pong', () => silent.delete(ws));
      // An over-long or broken frame: ws closes the connection itself, with the right code.
      ws.on('error', () => {});
      ws.on('close', () => devices.delete(ws));
      count += 1;
      if (pathOf(req) === '/feed')
        feedSocket(ws, { run, source: `feed:${count}`, allowed: rights.readings, turns, runTakes, report });
      else readoutSocket(ws, run, parts);
    });
    return null;
  };

  return {
    upgrade(req, socket, head) {
      let refused: Fault | null;
      try {
        refused = accept(req, socket, head);
      } catch (error) {
        // A run that cannot be read must not take down the server under another that is in the cut.
        report(error);
        refused = storageFault(error) ?? {
          status: 500,
          error: {
            code: 'failed',
            message: 'the run cannot be opened; what went wrong is in the output of the server',
          },
        };
      }
      if (refused !== null) refuseUpgrade(socket, refused);
    },
    close() {
      endPings();
      for (const socket of sockets.clients) socket.terminate();
      sockets.close();
    },
  };
}
