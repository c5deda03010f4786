/** What might cure each warning that forbids the cut, in the order in which a shop would try it. */

import { lengthIn } from '../figures/lengths.ts';
import type { Job } from '../job.ts';
import type { ForbiddingCode } from '../plan/forbids.ts';
import type { Plan } from '../plan/plan.ts';
import { unsureFields } from '../rip/leadingEnd.ts';
import { type TwistCure, twistCureText } from '../rip/twistCures.ts';
import { SOLD_WIDTHS_MM, widestForRadiusMm } from '../saw/blade.ts';
import { ripChoices } from '../saw/sawDefaults.ts';
import { closerMarks } from './closerMarks.ts';
import { type Sized, sized, written } from './sized.ts';
import { otherSide, twoLengths } from './tiltRangeChanges.ts';
import type { Candidate, Ways } from './ways.ts';

type Candidates = (job: Job, plan: Plan) => readonly Ways[];

/** None for what no change of the job cures: the warning's own words then say what is left to do. */
const CANDIDATES: Readonly<Record<ForbiddingCode, Candidates>> = {
  'which-end-unsure': (job) => [{ tried: [stateIt(job)] }],
  'tilt-out-of-reach': (job, plan) => [twoLengths(job, plan), { tried: [otherSide(job)] }],
  twist: (job, plan) => twistWays(job, plan),
  // No slower feed: it helps only a hand that spreads its turns, and no plan says so to the hand.
  'quick-turn': (job, plan) => [closerMarks(job, plan), { tried: narrowerThan(job, job.saw.bladeWidthMm).slice(0, 2) }],
  bend: (job) => [{ tried: thinnerEdges(job) }],
  'stack-too-thin': (job, plan) => [
    { tried: thinnerLaminations(job, plan) },
    { tried: thinnerEdges(job) },
    { tried: [deeperMoulding(job, plan)] },
  ],
};

export const candidatesFor = (code: ForbiddingCode, job: Job, plan: Plan): readonly Ways[] =>
  CANDIDATES[code](job, plan);

/** As it was filled in: whether it is so, a person has to see. */
function stateIt(job: Job): Candidate {
  const { side, mouldedFace } = job.frame;
  const { leans } = job.saw;
  const values = { 'frame.side': side, 'frame.mouldedFace': mouldedFace, 'saw.leans': leans };
  const missing = unsureFields(job.defaults);
  const said = missing.map((field) => `${field} "${values[field as keyof typeof values]}"`).join(', ');
  return {
    kind: 'state it',
    text: `Look at the frame and the saw. If it is so, state it in the job: ${said}. If not, state what is: another end may lead.`,
    change: { frame: { side, mouldedFace }, saw: { leans } },
    job: { ...job, defaults: job.defaults.filter((field) => !missing.includes(field)) },
  };
}

function twistWays(job: Job, plan: Plan): readonly Ways[] {
  const { blade, line } = plan.rip ?? {};
  const byBlade = (blade?.cures ?? []).flatMap((cure) => twistChange(job, cure) ?? []);
  const radiusMm = line?.leastRadiusMm ?? null;
  const widestMm = radiusMm === null ? undefined : widestForRadiusMm(job.saw, radiusMm);
  const byLine = widestMm === undefined ? [] : narrowerThan(job, widestMm + 0.01).slice(0, 2);
  const narrower = [...byBlade.filter(({ kind }) => kind === 'narrower blade'), ...byLine];
  const others = byBlade.filter(({ kind }) => kind !== 'narrower blade');
  return [{ tried: narrower }, ...others.map((way) => ({ tried: [way] }))];
}

/** Undefined for more pieces side by side: no one job is planned for them. */
function twistChange(job: Job, cure: TwistCure): Candidate | undefined {
  const textOf = (way: TwistCure) => capital(`${twistCureText(way, lengthIn(job.notation))}.`);
  switch (cure.kind) {
    case 'narrower blade':
      return narrower(job, cure.bladeWidthMm);
    case 'more set': {
      const kerf = sized(cure.kerfMm, job.notation, 'up');
      return {
        kind: 'more set',
        text: textOf({ ...cure, kerfMm: kerf.mm }),
        change: { saw: { kerf: kerf.written } },
        job: { ...job, saw: { ...job.saw, kerfMm: kerf.mm } },
      };
    }
    case 'follow the middle': {
      const { lineHeightMm: _, ...rest } = job.rip ?? {};
      return {
        kind: 'follow the middle',
        text: textOf(cure),
        change: { rip: { feeds: 'along a line', lineHeight: null } },
        job: { ...job, rip: { ...rest, feeds: 'along a line' } },
      };
    }
    case 'more pieces':
      return undefined;
  }
}

const narrowerThan = (job: Job, widthMm: number): readonly Candidate[] =>
  SOLD_WIDTHS_MM.filter((soldMm) => soldMm < widthMm && soldMm < job.saw.bladeWidthMm)
    .toSorted((a, b) => b - a)
    .map((bladeWidthMm) => narrower(job, bladeWidthMm));

function narrower(job: Job, bladeWidthMm: number): Candidate {
  const cure: TwistCure = { kind: 'narrower blade', bladeWidthMm };
  return {
    kind: 'narrower blade',
    text: capital(`${twistCureText(cure, lengthIn(job.notation))}.`),
    change: { saw: { bladeWidth: written(bladeWidthMm, job.notation) } },
    job: { ...job, saw: { ...job.saw, bladeWidthMm } },
  };
}

/** The thinnest edges that are still to be handled. Our own choice, no source. */
const EDGES_MM = [2, 1.5];

function thinnerEdges(job: Job): readonly Candidate[] {
  return EDGES_MM.map((mm) => sized(mm, job.notation, 'down'))
    .filter(({ mm }) => mm < ripChoices(job).thinnestEdgeMm)
    .map((edge) => ({
      kind: 'thinner edge',
      text: `A thinnest edge of ${edge.text}: both wedges are thinner by as much. It breaks more easily.`,
      change: { rip: { thinnestEdge: edge.written } },
      job: { ...job, rip: { ...job.rip, thinnestEdgeMm: edge.mm } },
    }));
}

/** Thinner ones are veneers. Our own choice, no source. */
const THINNEST_LAMINATION_MM = 1.5;

function thinnerLaminations(job: Job, plan: Plan): readonly Candidate[] {
  const roomMm = job.frame.mouldingMm - bothWedgesMm(plan);
  // The wedges are looked at between the marks too, where they may be a little thicker.
  return [roomMm, 0.8 * roomMm]
    .map((mm) => sized(mm, job.notation, 'down'))
    .filter(({ mm }) => mm >= THINNEST_LAMINATION_MM)
    .map((lamination) => ({
      kind: 'thinner laminations',
      text: `Laminations of ${lamination.text}.`,
      change: { stack: { lamination: lamination.written } },
      job: { ...job, stack: { ...job.stack, laminationMm: lamination.mm } },
    }));
}

function deeperMoulding(job: Job, plan: Plan): Candidate {
  const moulding: Sized = sized(1.02 * bothWedgesMm(plan) + job.stack.laminationMm, job.notation, 'up');
  return {
    kind: 'deeper moulding',
    text: `A moulding of ${moulding.text}, which takes one lamination.`,
    change: { frame: { moulding: moulding.written } },
    job: { ...job, frame: { ...job.frame, mouldingMm: moulding.mm } },
  };
}

const bothWedgesMm = ({ marks }: Plan): number =>
  Math.max(
    ...marks.map(({ outerEdgesMm, innerEdgesMm }) =>
      Math.max(outerEdgesMm[0] + innerEdgesMm[0], outerEdgesMm[1] + innerEdgesMm[1]),
    ),
  );

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
