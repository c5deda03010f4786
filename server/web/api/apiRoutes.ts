/** Everything under `/api`. */
import express, { type Router } from 'express';
import type { Access } from '../access/access.ts';
import type { Door } from '../admission.ts';
import type { Turns } from '../fairTurns.ts';
import { answerFault, fault } from '../fault.ts';
import type { WebPorts } from '../webPorts.ts';
import { clipRoutes } from './clipRoutes.ts';
import { codeRoutes } from './codeRoutes.ts';
import { crewRoutes } from './crewRoutes.ts';
import { deviceRoutes } from './deviceRoutes.ts';
import { address, jsonOnly, requireKey } from './guards.ts';
import { bodies } from './longBodies.ts';
import { loudspeakerRoutes } from './loudspeakerRoutes.ts';
import { paperRoutes } from './paperRoutes.ts';
import { planRoutes } from './planRoutes.ts';
import { runRoutes } from './runRoutes.ts';
import { sawnRoutes } from './sawnRoutes.ts';
import { voiceRoutes } from './voiceRoutes.ts';

interface ApiParts {
  readonly ports: WebPorts;
  readonly access: Access;
  readonly door: Door;
  readonly turns: Turns;
  readonly version: string;
  readonly port: () => number;
}

export function apiRoutes({ ports, access, door, turns, version, port }: ApiParts): Router {
  const router = express.Router();
  router.use((_req, res, next) => {
    res.setHeader('Cache-Control', 'no-store');
    next();
  });
  address(router, '/health', { get: [(_req, res) => void res.json({ ok: true, version })] });
  router.use(requireKey(door));
  router.use(jsonOnly);
  router.use(bodies());
  planRoutes(router, ports);
  sawnRoutes(router, ports);
  runRoutes(router, ports, turns);
  clipRoutes(router, ports);
  codeRoutes(router, ports);
  paperRoutes(router, ports, turns);
  crewRoutes(router, ports);
  voiceRoutes(router, ports);
  loudspeakerRoutes(router, ports);
  deviceRoutes(router, access, port);
  router.use((req, res) => answerFault(res, fault('no-such-address', `there is nothing at /api${req.path}`)));
  return router;
}
