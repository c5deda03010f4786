/** What both boards at the saw draw from: the run's stations in its order, and the plank's motion, fed by the guide. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Plan } from '../../server/core/plan.ts';
import type { Guide } from '../../server/core/run/guide.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import type { RunMode, Station } from '../../server/core/run/state.ts';
import { PlankMotion } from './plankMotion.ts';
import type { RunLink } from './runLink.ts';

export interface RunBoard {
  readonly stations: readonly Station[];
  readonly motion: PlankMotion;
}

export function useRunBoard(link: RunLink, plan: Plan, mode: RunMode): RunBoard {
  const stations = useMemo(() => makeSetup(plan, mode, {}).stations, [plan, mode]);
  const motion = useMemo(() => new PlankMotion(stations), [stations]);
  useEffect(() => link.listen({ guide: (guide) => motion.told(guide, performance.now()) }), [link, motion]);
  return { stations, motion };
}

/** The guide, drawn again only when what `select` makes of it changes. */
export function useGuide<T extends string | number | boolean | null>(
  link: RunLink,
  select: (guide: Guide) => T,
): T | null {
  const [picked, setPicked] = useState<T | null>(null);
  useEffect(() => link.listen({ guide: (guide) => setPicked(() => select(guide)) }), [link]);
  return picked;
}

/** How many marks have reached the blade, in the order of the run, which may go from the last to the first. */
export const countReached = (stations: readonly Station[], mark: number): number =>
  stations.findIndex((station) => station.mark === mark) + 1;
