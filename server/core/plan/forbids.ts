/**
 * Which warnings forbid the cut: the one rule that the plan, the paper, the pages, the command line, the making of a run and its
 * record go by. With a forbidding warning the frame is scrap, or the saw is in danger; with any other it can be sawn.
 */

import { type Routine, type RunMode, USUAL_ROUTINE } from '../routine/routine.ts';
import { routineNamed } from '../routine/routines.ts';
import type { PlanWarning } from './cure.ts';
import type { Plan } from './plan.ts';

/** `quick-turn` is of the turn in one go: in the other routines the turn is spread over its interval. */
const FORBIDS = {
  'tilt-out-of-reach': 'every routine',
  'which-end-unsure': 'every routine',
  twist: 'every routine',
  'quick-turn': 'in one go',
  bend: 'every routine',
  'stack-too-thin': 'every routine',
} as const;
export type ForbiddingCode = keyof typeof FORBIDS;
type Forbidding = PlanWarning & { readonly code: ForbiddingCode };

/**
 * What stands against the cut in this routine; where none is named, in the one that a run takes by itself and paper goes by. Pages and
 * papers go by it.
 */
export function standsAgainst(warning: PlanWarning, routine: Routine = USUAL_ROUTINE): warning is Forbidding {
  const where = Object.hasOwn(FORBIDS, warning.code) ? FORBIDS[warning.code as ForbiddingCode] : undefined;
  return where === 'every routine' || (where === 'in one go' && routineNamed(routine).isTurnedInOneGo);
}

/**
 * What forbids the cut. Which end leads wants only to be looked at and confirmed by the person at the page, who is asked: a job
 * need not state it, so a request from outside is not refused for it.
 */
export const forbids = (warning: PlanWarning, routine?: Routine): boolean =>
  warning.code !== 'which-end-unsure' && standsAgainst(warning, routine);

/** By code, not by the word that a plan carries: plans kept from before have none. */
export const forbiddingWarnings = (
  { warnings }: Pick<Plan, 'warnings'>,
  routine: Routine = USUAL_ROUTINE,
): readonly Forbidding[] => warnings.filter((warning): warning is Forbidding => standsAgainst(warning, routine));

/**
 * What stands against making this run. A rehearsal saws nothing, so nothing does, whatever feeds it; a run with a simulated feed is
 * not one for that: nothing keeps wood from its blade.
 */
export const againstRun = (
  plan: Pick<Plan, 'warnings'>,
  { mode, routine }: { readonly mode: RunMode; readonly routine: Routine },
): readonly Forbidding[] => (mode === 'rehearsal' ? [] : forbiddingWarnings(plan, routine));

/** Whether a request for this run is refused: where something forbids its cut and nobody says why it is made all the same. */
export const isRefused = (against: readonly PlanWarning[], routine: Routine, despite: string | undefined): boolean =>
  despite === undefined && against.some((warning) => forbids(warning, routine));

/** The words that say why: as much as a few sentences. */
export const DESPITE_CHARS = 500;

/** The plan of a run that is made in spite of what stands against it: with the words of the person who says why. */
export const inSpiteOf = (plan: Plan, words: string, against: readonly Forbidding[]): Plan =>
  against.length === 0 ? plan : { ...plan, despite: { words, codes: [...new Set(against.map(({ code }) => code))] } };

/** What was forbidden when the run was made in spite of it; none where nothing was. */
export const madeInSpiteOf = ({ warnings, despite }: Pick<Plan, 'warnings' | 'despite'>): readonly PlanWarning[] =>
  warnings.filter(({ code }) => despite?.codes.includes(code) ?? false);
