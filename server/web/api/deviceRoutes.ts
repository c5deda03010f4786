/** Keys for devices, each with one role: made and revoked at the console. */
import type { Router } from 'express';
import { z } from 'zod';
import { describeShape } from '../../wire/problem/describeShape.ts';
import { isOneLine, WITHOUT_HIDDEN } from '../../wire/problem/hidden.ts';
import type { Access, DeviceRole } from '../access/access.ts';
import { LOOPBACK_NAMES } from '../access/houseNames.ts';
import { answerFault, fault, faultLike } from '../fault.ts';
import { qrCode } from './codeRoutes.ts';
import { address, holderOf, requireRight } from './guards.ts';

const deviceAsk = z.strictObject({
  role: z.enum(['wheel', 'sawyer', 'signal']),
  label: z
    .string()
    .trim()
    .refine((text) => isOneLine(text, 64), {
      message: `expected a name on one line, 1 to 64 characters, ${WITHOUT_HIDDEN}`,
    }),
  /** The run that the device is for; without it, its page lets one choose. */
  run: z.string().min(1).max(64).optional(),
});

export function deviceRoutes(router: Router, access: Access, port: () => number): void {
  const mayPair = requireRight(({ devices }) => devices);
  address(router, '/access', {
    get: [(_req, res) => void res.json({ lan: access.lan, role: holderOf(res).role })],
  });
  address(router, '/devices', {
    get: [mayPair, (_req, res) => void res.json(access.devices())],
    post: [
      mayPair,
      async (req, res) => {
        if (!access.lan)
          return answerFault(
            res,
            fault(
              'not-over-the-network',
              'the server is open to this machine only: start it with --lan to let devices in',
            ),
          );
        const ask = deviceAsk.safeParse(req.body ?? {});
        if (!ask.success) return answerFault(res, faultLike('bad-request', describeShape(ask.error, req.body ?? {})));
        const { role, label, run } = ask.data;
        const { device, key } = await access.addDevice(role, label);
        const url = deviceUrl(role, key, `${hostForDevices(req.hostname, access)}:${port()}`, run);
        res.status(201).json({ ...device, url, qr: qrCode(url) });
      },
    ],
  });
  address(router, '/devices/:id', {
    delete: [
      mayPair,
      async (req, res) => {
        if (await access.revoke(String(req.params.id))) res.status(204).end();
        else answerFault(res, fault('no-such-device', 'there is no such device'));
      },
    ],
  });
}

/** The console's own name for this machine, unless that is one that no other machine can use. */
function hostForDevices(asked: string, access: Access): string {
  const name = LOOPBACK_NAMES.has(asked.replace(/^\[|\]$/g, '')) ? access.nameForDevices() : asked;
  return name.includes(':') && !name.startsWith('[') ? `[${name}]` : name;
}

/** Pages open by themselves; a signal source is given the raw socket's address, to which it adds `run=ID`. */
function deviceUrl(role: DeviceRole, key: string, host: string, run: string | undefined): string {
  const query = new URLSearchParams({ ...(run === undefined ? {} : { run }), key });
  return role === 'signal' ? `wss://${host}/feed?${query}` : `https://${host}/${role}?${query}`;
}
