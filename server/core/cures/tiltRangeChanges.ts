/** What brings a bevel within the saw's reach: the frame in two lengths, or the saw's other side. */

import { lengthText } from '../figures/lengths.ts';
import { rounded } from '../figures/rounding.ts';
import type { Job } from '../job.ts';
import type { Plan } from '../plan/plan.ts';
import { oppositeSide } from '../rip/leadingEnd.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import { sized, written } from './sized.ts';
import type { Candidate, Ways } from './ways.ts';

/** Where the bevel changes hand once: each length a job of its own, of which the one of the lesser hand is laid the other way. */
export function twoLengths(job: Job, plan: Plan): Ways {
  const [change, another] = plan.rip?.handChanges ?? [];
  if (change === undefined || another !== undefined) return { tried: [] };
  const girths = plan.marks.map(({ girthMm }) => girthMm);
  // Each length ends on its own side of square.
  const [below, above] = [sized(change.girthMm, job.notation, 'down').mm, sized(change.girthMm, job.notation, 'up').mm];
  // A mark just before the cut would be too close to it to be called.
  const clearMm = (lastRow(girths) - rowAt(girths, 0)) / (girths.length - 1) / 2;
  const heel = [...girths.filter((mm) => mm < below - clearMm), below];
  const head = [above, ...girths.filter((mm) => mm > above + clearMm)];
  if (heel.length < 2 || head.length < 2) return { tried: [] };
  const at = lengthText(change.girthMm, job.notation);
  return {
    tried: [length(job, 'heel length', heel, at), length(job, 'head length', head, at)],
    isTogether: true,
  };
}

function length(job: Job, kind: 'heel length' | 'head length', girthsMm: readonly number[], at: string): Candidate {
  const [end, other] = kind === 'heel length' ? ['heel', 'head'] : ['head', 'heel'];
  const exact = girthsMm.map((mm) => rounded(mm, 4, 'nearest'));
  return {
    kind,
    text: `In two lengths, cross-cut where the bevel changes hand (girth ${at}), with enough over on both for the scarf: the one toward the ${end} as a job of its own; the one toward the ${other} as another.`,
    change: { marks: { spacing: null, tolerance: null, at: exact.map((mm) => written(mm, job.notation)) } },
    job: { ...job, marks: { kind: 'at', girthsMm: exact } },
  };
}

/** A saw that tilts farther to its other side saws the frame there. What its readout and wheel are tested for is of this side. */
export function otherSide(job: Job): Candidate {
  const [least, most] = job.saw.tiltDeg;
  const tiltDeg = [0 - most, 0 - least] as const;
  const leans = oppositeSide(job.saw.leans);
  const { turnsTable: _, ...saw } = job.saw;
  return {
    kind: 'other side',
    text: `Saw it on the other side of this saw: its top leans to the ${leans}, its tilt goes from ${tiltDeg[0]}° to ${tiltDeg[1]}°. Only where the readout counts to that side too; test it there anew. Another end then leads.`,
    change: { saw: { leans, tilt: tiltDeg, readoutTable: null, turnsTable: null } },
    job: { ...job, saw: { ...saw, leans, tiltDeg, readoutTable: [] } },
  };
}
