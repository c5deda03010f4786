/** The names under which this machine can be reached. */
import { hostname, networkInterfaces } from 'node:os';

export const LOOPBACK_NAMES: ReadonlySet<string> = new Set(['localhost', '127.0.0.1', '::1']);

interface HouseNames {
  /** IPv4 addresses first; link-local IPv6 left out, because a page's address cannot carry its zone. */
  readonly addresses: readonly string[];
  /** Lower case: the machine's name, plain and as multicast DNS has it. */
  readonly names: readonly string[];
}

/** Addresses on other interfaces than loopback, and the machine's names, as they are now. */
export function houseNames(): HouseNames {
  const found = Object.values(networkInterfaces())
    .flatMap((interfaceAddresses) => interfaceAddresses ?? [])
    .filter(({ internal, address }) => !internal && !/^fe[89ab]/i.test(address))
    .sort((a, b) => a.family.localeCompare(b.family))
    .map(({ address }) => address.toLowerCase());
  const name = hostname().toLowerCase();
  const short = name.split('.')[0] ?? name;
  // A machine's name that cannot stand in an address (a space, an underscore) is of no use in one.
  const names = [name, short, `${short}.local`].filter((each) => /^[a-z0-9]([a-z0-9.-]*[a-z0-9])?$/.test(each));
  return { addresses: [...new Set(found)], names: [...new Set(names)] };
}
