/** The web room: pages and API by express, pages' sockets by socket.io, raw sockets by ws, all on one server. */
import { createServer as createHttpServer, type Server as HttpServer } from 'node:http';
import { createServer as createHttpsServer, type Server as HttpsServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import express from 'express';
import type { Access } from './access/access.ts';
import { createDoor } from './admission.ts';
import { apiRoutes } from './api/apiRoutes.ts';
import type { Turns } from './fairTurns.ts';
import { answerFault, fault } from './fault.ts';
import { keepFewPerAddress } from './fewPerAddress.ts';
import { handleFailure } from './handleFailure.ts';
import { pageRoutes } from './pageRoutes.ts';
import { createPulse } from './pulse.ts';
import { pathOf } from './requestKey.ts';
import { securityHeaders } from './securityHeaders.ts';
import { createPageSockets, PAGE_SOCKETS_PATH } from './sockets/pageSockets.ts';
import { createRawSockets } from './sockets/rawSockets.ts';
import { refuseUpgrade } from './sockets/refuseUpgrade.ts';
import { createRunRate } from './sockets/runRate.ts';
import type { WebPorts } from './webPorts.ts';

interface WebParts {
  readonly ports: WebPorts;
  readonly access: Access;
  /** Shared with the runs: what they do by themselves waits its turn too. */
  readonly turns: Turns;
  /** The folder of the built pages. */
  readonly pagesDir: string;
  readonly version: string;
  /** Unix time in ms. */
  readonly clock?: () => number;
  /** Told of what should never happen; by default it goes to the error output. */
  readonly report?: (error: unknown) => void;
}

export interface Web {
  readonly server: HttpServer | HttpsServer;
  /** Settles with the address once it answers; rejects with Node's error (`EADDRINUSE`, `EACCES`...). Port 0 takes a free one. */
  listen(port: number, host: string): Promise<string>;
  /** Ends every connection and stops listening. */
  close(): Promise<void>;
}

export function createWeb(parts: WebParts): Web {
  const { ports, access, turns, pagesDir, version, clock = Date.now, report = console.error } = parts;
  const secure = access.tls !== null;
  const app = express();
  const server = access.tls === null ? createHttpServer(app) : createHttpsServer(access.tls, app);
  const port = (): number => (server.address() as AddressInfo | null)?.port ?? 0;
  const door = createDoor(access, port);
  const pulse = createPulse();
  const runRate = createRunRate();
  const runTakes = (run: string, source: string): boolean => runRate(run, source, performance.now());
  const socketParts = { ports, access, door, pulse, turns, runTakes, clock, report };

  app.disable('x-powered-by');
  // What it is reckoned from would have to be gone through byte by byte; the API's answers are kept nowhere.
  app.set('etag', false);
  app.use(...securityHeaders(secure));
  app.use((req, res, next) => {
    const isVisit = req.method === 'GET' && !req.path.startsWith('/api/');
    const screened = door.screen(req, isVisit);
    if (screened === null) next();
    else answerFault(res, screened);
  });
  app.use('/api', apiRoutes({ ports, access, door, turns, version, port }));
  app.use(pageRoutes({ pagesDir, access, door }));
  app.use((_req, res) => answerFault(res, fault('no-such-address', 'there is nothing at this address')));
  app.use(handleFailure(report));

  const pageSockets = createPageSockets(server, socketParts);
  const rawSockets = createRawSockets(socketParts);
  server.on('upgrade', (req, socket, head) => {
    const path = pathOf(req);
    if (path === PAGE_SOCKETS_PATH) pageSockets.upgrade(req, socket, head);
    else if (path === '/feed' || path === '/readout') rawSockets.upgrade(req, socket, head);
    else refuseUpgrade(socket, fault('no-such-address', 'sockets are at /feed and /readout'));
  });
  server.on('connection', (socket) => socket.setNoDelay(true));
  keepFewPerAddress(server);
  server.headersTimeout = 10_000;
  server.requestTimeout = 30_000;

  return {
    server,
    listen: (atPort, host) =>
      new Promise((resolve, reject) => {
        server.once('error', reject);
        server.listen(atPort, host, () => {
          server.off('error', reject);
          resolve(`${secure ? 'https' : 'http'}://${hostInAddress(host)}:${port()}`);
        });
      }),
    async close() {
      pulse.close();
      rawSockets.close();
      await pageSockets.close();
      if (!server.listening) return;
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeAllConnections();
      await closed;
    },
  };
}

/** Where every interface is listened on, loopback is the name by which the machine itself surely finds it. */
function hostInAddress(host: string): string {
  if (host === '0.0.0.0' || host === '::') return '127.0.0.1';
  return host.includes(':') ? `[${host}]` : host;
}
