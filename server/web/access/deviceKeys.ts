/** The keys of devices: kept as hashes, each with its one role. */
import { randomBytes } from 'node:crypto';
import { z } from 'zod';
import type { Device, DeviceRole } from './access.ts';
import { keepPrivately, readKept } from './keepPrivately.ts';
import { hashOfKey, newKey, sameHash } from './secretKey.ts';

const keptDevices = z.array(
  z.strictObject({
    id: z.string(),
    role: z.enum(['wheel', 'sawyer', 'signal']),
    label: z.string(),
    madeAtMs: z.number(),
    keyHash: z.string().regex(/^[0-9a-f]{64}$/),
  }),
);
type KeptDevice = Device & { readonly keyHash: string };

interface DeviceKeys {
  list(): readonly Device[];
  find(keyHash: Buffer): Device | undefined;
  add(role: DeviceRole, label: string, nowMs: number): Promise<{ readonly device: Device; readonly key: string }>;
  remove(id: string): Promise<boolean>;
}

const withoutHash = ({ keyHash: _, ...device }: KeptDevice): Device => device;

/** Opens the file of device keys at `path`; throws if it is there but cannot be understood. */
export async function openDeviceKeys(path: string): Promise<DeviceKeys> {
  const text = await readKept(path);
  let devices: readonly KeptDevice[] = text === undefined ? [] : keptDevices.parse(JSON.parse(text));
  let lastWrite: Promise<void> = Promise.resolve();

  /** One change after the other, each of the list as it stands by then; what could not be kept has not been changed. */
  const change = (changed: (devices: readonly KeptDevice[]) => readonly KeptDevice[]): Promise<void> => {
    lastWrite = lastWrite
      .catch(() => {})
      .then(async () => {
        const next = changed(devices);
        await keepPrivately(path, `${JSON.stringify(next, null, 2)}\n`);
        devices = next;
      });
    return lastWrite;
  };

  return {
    list: () => devices.map(withoutHash),
    find(keyHash) {
      const found = devices.filter((device) => sameHash(Buffer.from(device.keyHash, 'hex'), keyHash))[0];
      return found === undefined ? undefined : withoutHash(found);
    },
    async add(role, label, nowMs) {
      const key = newKey();
      const device: Device = { id: randomBytes(6).toString('hex'), role, label, madeAtMs: nowMs };
      await change((known) => [...known, { ...device, keyHash: hashOfKey(key).toString('hex') }]);
      return { device, key };
    },
    async remove(id) {
      if (!devices.some((device) => device.id === id)) return false;
      await change((known) => known.filter((device) => device.id !== id));
      return true;
    },
  };
}
