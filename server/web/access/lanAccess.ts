/** Open to the shop's network: HTTPS, and a key for everyone. */
import { join } from 'node:path';
import type { Access } from './access.ts';
import { keptCertificate } from './certificate.ts';
import { openDeviceKeys } from './deviceKeys.ts';
import { houseNames, LOOPBACK_NAMES } from './houseNames.ts';
import { keepPrivately, readKept } from './keepPrivately.ts';
import { hashOfKey, isKey, newKey, sameHash } from './secretKey.ts';
import { createWrongKeys } from './wrongKeys.ts';

/** Addresses change with the network (a cable, a lease); asking the system for them at every request would be waste. */
const NAMES_FRESH_MS = 5000;

/**
 * Opens `dataDir/access`, making what is not there yet: the certificate, the console's key, the list of devices.
 * The console's key is kept from start to start (file `console-key`), so that a console reloads after a power cut in the
 * middle of a run; to have a new one, delete the file and start again.
 */
export async function lanAccess(dataDir: string, clock: () => number = Date.now): Promise<Access> {
  const folder = join(dataDir, 'access');
  const names = houseNames();
  const [tls, consoleKey, devices] = await Promise.all([
    keptCertificate(folder, [...LOOPBACK_NAMES, ...names.addresses, ...names.names], clock()),
    keptConsoleKey(join(folder, 'console-key')),
    openDeviceKeys(join(folder, 'devices.json')),
  ]);
  const consoleHash = hashOfKey(consoleKey);
  const wrongKeys = createWrongKeys();
  const revokedListeners: ((device: string) => void)[] = [];
  let known = { atMs: clock(), names };

  const freshNames = () => {
    if (Math.abs(clock() - known.atMs) > NAMES_FRESH_MS) known = { atMs: clock(), names: houseNames() };
    return known.names;
  };

  return {
    lan: true,
    tls,
    consoleKey,
    hostNames() {
      const { addresses, names } = freshNames();
      return new Set([...LOOPBACK_NAMES, ...addresses, ...names]);
    },
    nameForDevices() {
      const { addresses, names } = freshNames();
      return addresses[0] ?? names.find((name) => name.endsWith('.local')) ?? '127.0.0.1';
    },
    admit(key, from) {
      if (key === undefined) return { ok: false, code: 'key-needed' };
      const hash = hashOfKey(key);
      const device = devices.find(hash);
      if (sameHash(hash, consoleHash)) return { ok: true, holder: { role: 'console' } };
      if (device !== undefined) return { ok: true, holder: { role: device.role, device: device.id } };
      // A right key is let in even from an address that has sent many wrong ones: 160 bits are not guessed, and a
      // stop pressed at the saw must not wait because something else at that address is badly set up.
      return { ok: false, code: wrongKeys.tooMany(from, clock()) ? 'too-many-tries' : 'key-wrong' };
    },
    devices: () => devices.list(),
    addDevice: (role, label) => devices.add(role, label, clock()),
    async revoke(id) {
      const revoked = await devices.remove(id);
      if (revoked) for (const listener of revokedListeners) listener(id);
      return revoked;
    },
    onRevoked(listener) {
      revokedListeners.push(listener);
    },
  };
}

async function keptConsoleKey(path: string): Promise<string> {
  const kept = (await readKept(path))?.trim();
  if (kept !== undefined && isKey(kept)) return kept;
  const made = newKey();
  await keepPrivately(path, `${made}\n`);
  return made;
}
