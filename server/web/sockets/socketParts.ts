import type { Access } from '../access/access.ts';
import type { Door } from '../door.ts';
import type { WebPorts } from '../ports.ts';
import type { Pulse } from '../pulse.ts';

/** What both kinds of sockets are made from. */
export interface SocketParts {
  readonly ports: WebPorts;
  readonly access: Access;
  readonly door: Door;
  readonly pulse: Pulse;
  readonly clock: () => number;
  /** Told of what should never happen. */
  readonly report: (error: unknown) => void;
}
