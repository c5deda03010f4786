/** Everything under `/api`. */
import express, { type Router } from 'express';
import { BODY_LIMIT_BYTES } from '../../wire/requests.ts';
import type { Access } from '../access/access.ts';
import type { Door } from '../door.ts';
import { answerFault, fault } from '../fault.ts';
import type { WebPorts } from '../ports.ts';
import { clipRoutes } from './clipRoutes.ts';
import { codeRoutes } from './codeRoutes.ts';
import { crewRoutes } from './crewRoutes.ts';
import { deviceRoutes } from './deviceRoutes.ts';
import { address, jsonOnly, requireKey } from './guards.ts';
import { DEPTH_LIMIT, isTooDeep } from './jsonDepth.ts';
import { loudspeakerRoutes } from './loudspeakerRoutes.ts';
import { paperRoutes } from './paperRoutes.ts';
import { planRoutes } from './planRoutes.ts';
import { runRoutes } from './runRoutes.ts';
import { sawnRoutes } from './sawnRoutes.ts';
import { voiceRoutes } from './voiceRoutes.ts';

export interface ApiParts {
  readonly ports: WebPorts;
  readonly access: Access;
  readonly door: Door;
  readonly version: string;
  readonly port: () => number;
}

export function apiRoutes({ ports, access, door, version, port }: ApiParts): Router {
  const router = express.Router();
  router.use((_req, res, next) => {
    res.setHeader('Cache-Control', 'no-store');
    next();
  });
  address(router, '/health', { get: [(_req, res) => void res.json({ ok: true, version })] });
  router.use(requireKey(door));
  router.use(jsonOnly);
  // Not unpacked: a small packed body can be an enormous one.
  router.use(express.json({ limit: BODY_LIMIT_BYTES, inflate: false, verify: refuseTooDeep }));
  planRoutes(router, ports);
  sawnRoutes(router, ports);
  runRoutes(router, ports);
  clipRoutes(router, ports);
  codeRoutes(router, ports);
  paperRoutes(router, ports);
  crewRoutes(router, ports);
  voiceRoutes(router, ports);
  loudspeakerRoutes(router, ports);
  deviceRoutes(router, access, port);
  router.use((req, res) => answerFault(res, fault('no-such-address', `there is nothing at /api${req.path}`)));
  return router;
}

const refuseTooDeep = (_req: unknown, _res: unknown, body: Uint8Array): void => {
  if (isTooDeep(body)) throw new Error(`nested more than ${DEPTH_LIMIT} deep`);
};
