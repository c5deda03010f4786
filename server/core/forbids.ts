/**
 * Which warnings forbid the cut: the one rule that the plan, the paper, the pages, the command line, the making of a run and its
 * record go by. With a forbidding warning the frame is scrap, or the saw is in danger; with any other it can be sawn.
 */
import type { Plan, Warning } from './plan.ts';
import type { Routine, RunMode } from './run/state.ts';

/** `quick-turn` is of the turn in one go: in the other routines the turn is spread over its interval. */
const FORBIDS = {
  'tilt-out-of-reach': 'every routine',
  'which-end-unsure': 'every routine',
  twist: 'every routine',
  'quick-turn': 'mark by mark',
  bend: 'every routine',
  'stack-too-thin': 'every routine',
} as const;
export type ForbiddingCode = keyof typeof FORBIDS;
export type Forbidding = Warning & { readonly code: ForbiddingCode };

/** In this routine; where none is named, in the one that a run takes by itself and paper goes by. */
export function forbids(warning: Warning, routine: Routine = 'mark by mark'): warning is Forbidding {
  const where = Object.hasOwn(FORBIDS, warning.code) ? FORBIDS[warning.code as ForbiddingCode] : undefined;
  return where === 'every routine' || where === routine;
}

/** By code, not by the word that a plan carries: plans kept from before have none. */
export const forbiddingWarnings = (
  { warnings }: Pick<Plan, 'warnings'>,
  routine: Routine = 'mark by mark',
): readonly Forbidding[] => warnings.filter((warning) => forbids(warning, routine));

/**
 * What stands against making this run. A rehearsal saws nothing, so nothing does, whatever feeds it; a run with a simulated feed is
 * not one for that: nothing keeps wood from its blade.
 */
export const againstRun = (
  plan: Pick<Plan, 'warnings'>,
  { mode, routine }: { readonly mode: RunMode; readonly routine: Routine },
): readonly Forbidding[] => (mode === 'rehearsal' ? [] : forbiddingWarnings(plan, routine));

/** The words that say why: as much as a few sentences. */
export const DESPITE_CHARS = 500;

/** The plan of a run that is made in spite of what stands against it: with the words of the person who says why. */
export const inSpiteOf = (plan: Plan, words: string, against: readonly Forbidding[]): Plan =>
  against.length === 0 ? plan : { ...plan, despite: { words, codes: [...new Set(against.map(({ code }) => code))] } };

/** What was forbidden when the run was made in spite of it; none where nothing was. */
export const madeInSpiteOf = ({ warnings, despite }: Pick<Plan, 'warnings' | 'despite'>): readonly Warning[] =>
  warnings.filter(({ code }) => despite?.codes.includes(code) ?? false);
