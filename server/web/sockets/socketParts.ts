import type { Access } from '../access/access.ts';
import type { Door } from '../admission.ts';
import type { Turns } from '../fairTurns.ts';
import type { Pulse } from '../pulse.ts';
import type { WebPorts } from '../webPorts.ts';

/** What both kinds of sockets are made from. */
export interface SocketParts {
  readonly ports: WebPorts;
  readonly access: Access;
  readonly door: Door;
  readonly pulse: Pulse;
  readonly turns: Turns;
  /** Whether a run takes one more reading in this second. */
  readonly runTakes: (run: string, source: string) => boolean;
  readonly clock: () => number;
  /** Told of what should never happen. */
  readonly report: (error: unknown) => void;
}
