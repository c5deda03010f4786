import type { Plan } from '../core/plan/plan.ts';
import type { WayRound } from '../core/plan/ripPlan.ts';
import { fenceSide } from '../core/rip/leadingEnd.ts';

/** How the stock lies. Plans made before they told lie so too: thick edge up, the outer wedge at the fence. */
export const wayRound = ({ rip, thickEdge, saw }: Plan): WayRound =>
  rip?.way ?? { upEdge: thickEdge, fence: fenceSide(saw), outerIs: 'at the fence' };
