/** Who is told of what a run decides. */

import type { Call, Notice } from '../../core/run/engine/events.ts';
import type { RunView } from './messages.ts';

export interface Follower {
  readonly view?: (view: RunView) => void;
  readonly call?: (call: Call) => void;
  readonly cancel?: (id: string) => void;
  readonly notice?: (notice: Notice) => void;
}
