/** What both boards at the saw draw from: the run turned into its order, and the wood's motion, fed by the guide. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { RunSetup, Station } from '../../../server/core/run/engine/state.ts';
import { makeSetup } from '../../../server/core/run/makeSetup.ts';
import type { Guide } from '../../../server/core/run/view/guide.ts';
import type { RunView } from '../../../server/wire/message/messages.ts';
import { type Shown, WoodMotion } from '../plank/woodMotion.ts';
import type { RunLink } from './runLink.ts';

export interface RunBoard {
  readonly setup: RunSetup;
  readonly stations: readonly Station[];
  /** Where the wood is drawn in the frame at this time of the page. */
  readonly shownAt: (nowMs: number) => Shown;
}

export function useRunBoard(link: RunLink, plan: Plan, { mode, routine }: Pick<RunView, 'mode' | 'routine'>): RunBoard {
  const setup = useMemo(() => makeSetup(plan, mode, {}, routine), [plan, mode, routine]);
  const motion = useMemo(() => new WoodMotion(setup.stations), [setup]);
  useEffect(() => link.listen({ guide: (guide) => motion.told(guide), joined: () => motion.forget() }), [link, motion]);
  return useMemo(
    () => ({
      setup,
      stations: setup.stations,
      shownAt: (nowMs) => motion.frame(nowMs, link.toServerMs(nowMs)),
    }),
    [link, setup, motion],
  );
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
