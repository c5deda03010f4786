/** More marks, so that each turn is smaller; slower, where the crew's feed leaves too little time between them. */

import { feedText } from '../figures/feeds.ts';
import { rounded } from '../figures/rounding.ts';
import { type Job, type MarkPlacing, MOST_MARKS } from '../job.ts';
import type { Plan } from '../plan/plan.ts';
import { SHORT_INTERVAL_MM } from '../text/paceWarnings.ts';
import { sized, written } from './sized.ts';
import type { Candidate, Ways } from './ways.ts';

/** Each interval into so many. */
const INTO = [2, 3, 4];

export function closerMarks(job: Job, plan: Plan): Ways {
  const shortestMm = Math.min(...plan.pace.intervals.map(({ lengthMm }) => lengthMm));
  const tried = INTO.filter((into) => shortestMm / into >= SHORT_INTERVAL_MM && plan.marks.length * into <= MOST_MARKS);
  return { tried: tried.map((into) => closer(job, plan, into)), slower };
}

function slower(way: Candidate, feedMPerMin: number): Candidate {
  return {
    kind: way.kind,
    text: `${way.text.slice(0, -1)}, fed at ${feedText(feedMPerMin, way.job.notation)} at most.`,
    change: { ...way.change, crew: { feedMPerMin } },
    job: { ...way.job, crew: { ...way.job.crew, feedMPerMin } },
  };
}

function closer(job: Job, plan: Plan, into: number): Candidate {
  const { marks, fields, text } = placed(job, plan, into);
  return {
    kind: 'closer marks',
    text,
    change: { marks: { spacing: null, at: null, tolerance: null, ...fields } },
    job: { ...job, marks },
  };
}

function placed(job: Job, plan: Plan, into: number) {
  if (job.marks.kind === 'spacing') {
    const spacing = sized(job.marks.spacingMm / into, job.notation, 'down');
    return {
      marks: { kind: 'spacing', spacingMm: spacing.mm } satisfies MarkPlacing,
      fields: { spacing: spacing.written },
      text: `Marks ${spacing.text} apart.`,
    };
  }
  const girthsMm = between(
    plan.marks.map(({ girthMm }) => girthMm),
    into,
  ).map((mm) => rounded(mm, 1, 'nearest'));
  return {
    marks: { kind: 'at', girthsMm } satisfies MarkPlacing,
    fields: { at: girthsMm.map((mm) => written(mm, job.notation)) },
    text: `${girthsMm.length} marks in place of ${plan.marks.length}, each interval in ${into}.`,
  };
}

function between(girthsMm: readonly number[], into: number): readonly number[] {
  return girthsMm.flatMap((fromMm, i) => {
    const toMm = girthsMm[i + 1];
    if (toMm === undefined) return [fromMm];
    return Array.from({ length: into }, (_, k) => fromMm + ((toMm - fromMm) * k) / into);
  });
}
