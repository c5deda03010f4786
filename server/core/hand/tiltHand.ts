/** A plan made with what was learnt of one person, in place of the job's own reaction and turning rate. */
import type { Job } from '../job.ts';
import type { Plan } from '../plan/plan.ts';

export interface TiltHand {
  readonly name: string;
  /** The figures to plan by; null where nothing was learnt, so that the job's holds. */
  readonly reactionS: number | null;
  readonly turnsPerS: number | null;
}

type LearntFigure = NonNullable<Plan['crew']['learnt']>[number];

const learntOf = ({ reactionS, turnsPerS }: TiltHand): readonly LearntFigure[] => [
  ...(reactionS === null ? [] : (['reactionS'] as const)),
  ...(turnsPerS === null ? [] : (['turnsPerS'] as const)),
];

/** What was learnt of a person is no default any more. */
export function withTiltHand(job: Job, hand: TiltHand): Job {
  const { crew, defaults } = job;
  const learnt = learntOf(hand).map((figure) => `crew.${figure}`);
  return {
    ...job,
    crew: { ...crew, reactionS: hand.reactionS ?? crew.reactionS, turnsPerS: hand.turnsPerS ?? crew.turnsPerS },
    defaults: defaults.filter((field) => !learnt.includes(field)),
  };
}

/** The plan that says whose figures it was made with. */
export const namingTiltHand = (plan: Plan, hand: TiltHand): Plan => ({
  ...plan,
  crew: { ...plan.crew, tiltHand: hand.name, learnt: learntOf(hand) },
});

/** The same plan when that person is forgotten: its figures stay, and nobody's name. */
export function withoutTiltHand(plan: Plan): Plan {
  const { reactionS, turnsPerS, feedMPerMin } = plan.crew;
  return { ...plan, crew: { reactionS, turnsPerS, feedMPerMin } };
}
