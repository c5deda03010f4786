import type { Access } from './access.ts';
import { LOOPBACK_NAMES } from './houseNames.ts';

/** Loopback only: no key, plain HTTP. The Host and Origin checks keep strangers' pages out. */
export function openAccess(): Access {
  return {
    lan: false,
    tls: null,
    consoleKey: null,
    hostNames: () => LOOPBACK_NAMES,
    nameForDevices: () => '127.0.0.1',
    admit: () => ({ ok: true, holder: { role: 'console' } }),
    devices: () => [],
    addDevice: () => Promise.reject(new Error('a server on loopback has no keys to give')),
    revoke: () => Promise.resolve(false),
    onRevoked: () => {},
  };
}
