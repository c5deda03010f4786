/**
 * What makes wedges bend that are too thick for their turn, each cure with its figures, and each tried on every mark.
 *
 * In layers: `rips` (so many planks, each ripped once with a share of the bevel: two rips of half the bevel; laid one on the other
 * their angles add up), `resawn` (one thicker plank ripped with the whole bevel, then each wedge sawn into layers that share its
 * angle), `planed` (tapered layers that together are just the wedge, their thin edges planed, for they are thinner than the saw
 * leaves them). Or the wedge as it is, `steamed`.
 */

import type { Length } from '../figures/lengths.ts';
import { wholeFigure } from '../figures/shares.ts';
import type { Job } from '../job.ts';
import { halfKerfMm, layCut } from '../rip/cut.ts';
import { handOf, orientationOf } from '../rip/leadingEnd.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { type Edge, edgeOf, otherEdge, type Wedges, wedgesOf } from '../rip/wedges.ts';
import { rowAt } from '../rowAt.ts';
import { ripChoices, straightAtMm } from '../saw/sawDefaults.ts';
import { radToDeg } from '../units.ts';
import { isHardwood } from './bendLimit.ts';
import type { FlatsAt } from './flats.ts';
import {
  innerInFrame,
  isWithinLimit,
  type LayeredMark,
  layerBends,
  pliesBetween,
  sharpestOf,
  wedgeBends,
} from './wedgeBend.ts';

export type BendCure = LayeredCure | SteamCure;

export interface LayeredCure {
  readonly kind: 'rips' | 'resawn' | 'planed';
  /** Layers that each of the two wedges is made of. */
  readonly layers: number;
  /** Thickest and thinnest edge of a layer, over all marks and both wedges. */
  readonly thickMm: number;
  readonly thinMm: number;
  /** Thickness of a dressed plank, and of how many the frame is then ripped; null where the stock stays as it is. */
  readonly plank: { readonly count: number; readonly thicknessMm: number } | null;
  /** Parallel laminations that then fit between the wedges. */
  readonly plies: number;
  readonly marks: readonly LayeredMark[];
}

interface SteamCure {
  readonly kind: 'steamed';
  /** Sharpest bend, radius over thickness. */
  readonly radiusOverThickness: number;
  /** Bent in a strap with end blocks, which keeps the outer face from stretching; without it only gentle bends hold. */
  readonly strap: boolean;
}

/** A wedge in more layers than this is a stack of laminations by another name. */
const MOST_LAYERS = 8;
/** The thinnest edge that is planed on a tapered bed. Our own choice, no source. */
const THINNEST_PLANED_MM = 1;

/**
 * Steamed wood stretches by 1 to 2 % at the most, but is compressed by 25 to 30 %: a bend without strap holds to about 3 %
 * between its faces (t / R), one in a strap to about 25 %. FPL Wood Handbook, chapter on bending, from memory.
 */
const STEAMED_FREE = 1 / 0.03;
const STEAMED_IN_STRAP = 1 / 0.25;

/** Every cure that holds at every mark; none where the wedges bend as they are. */
export function bendCures(job: Job, marks: readonly PlannedMark[], flatsAt: FlatsAt): readonly BendCure[] {
  const bends = wedgeBends(job, marks, flatsAt);
  if (isWithinLimit(bends, job.stack.species)) return [];
  const layered = ([rips, resawn, planed] as const).map((make) => fewest(job, marks, flatsAt, make));
  const steam = steamed(job.stack.species, sharpestOf(bends)?.radiusOverThickness ?? 0);
  return [...layered, steam].filter((cure) => cure !== undefined);
}

type Make = (job: Job, marks: readonly PlannedMark[], layers: number) => LayeredCure | undefined;

/** The fewest layers with which it holds. */
function fewest(job: Job, marks: readonly PlannedMark[], flatsAt: FlatsAt, make: Make): LayeredCure | undefined {
  for (let layers = 2; layers <= MOST_LAYERS; layers++) {
    const cure = make(job, marks, layers);
    if (cure === undefined) return undefined;
    if (cureHolds(job, cure, flatsAt)) return cure;
  }
  return undefined;
}

/** The layers of a cure, held against the same limit as the wedges. */
export const cureHolds = (job: Job, { marks }: LayeredCure, flatsAt: FlatsAt): boolean =>
  isWithinLimit(layerBends(job, marks, flatsAt), job.stack.species);

/** The edges of both wedges where planks are ripped with `share` of the bevel, every edge at least so thick. */
function ripped(job: Job, marks: readonly PlannedMark[], share: number, thinnestEdgeMm: number) {
  const hand = handOf(marks.map(({ sawnDeg }) => sawnDeg));
  const { thickEdge } = orientationOf(job.frame, job.saw.leans, hand);
  const tilts = marks.map(({ sawnDeg }) => hand * sawnDeg * share);
  const insideTilts = marks.map((at) => share * insideTiltDeg(at, thickEdge, job.frame.sidingMm));
  const asked = { kerfMm: job.saw.kerfMm, straightAtMm: straightAtMm(job), thinnestEdgeMm };
  const cut = layCut(asked, job.frame.sidingMm, [...tilts, ...insideTilts]);
  const edges = tilts.map((tiltDeg, i) => ({
    outerMm: wedgesOf(cut, tiltDeg, thickEdge).outerMm,
    innerMm: wedgesOf(cut, insideTilts[i] ?? tiltDeg, thickEdge).innerMm,
  }));
  return { edges, thicknessMm: cut.thicknessMm };
}

/** The tilt at which the inner wedge was sawn where this place of the frame falls on it. */
function insideTiltDeg(at: PlannedMark, upEdge: Edge, sidingMm: number): number {
  const edgesMm = innerInFrame(at);
  return radToDeg(Math.atan2(edgeOf(edgesMm, otherEdge(upEdge)) - edgeOf(edgesMm, upEdge), sidingMm));
}

function rips(job: Job, marks: readonly PlannedMark[], layers: number): LayeredCure {
  const { edges, thicknessMm } = ripped(job, marks, 1 / layers, ripChoices(job).thinnestEdgeMm);
  return layered(job, 'rips', layers, marks, edges, { count: layers, thicknessMm });
}

/** Each wedge is first sawn thicker by what the resawing takes and by a thin edge for every layer more. */
function resawn(job: Job, marks: readonly PlannedMark[], layers: number): LayeredCure {
  const { thinnestEdgeMm } = ripChoices(job);
  const kerfs = marks.map(({ sawnDeg }) => (layers - 1) * 2 * halfKerfMm(job.saw.kerfMm, sawnDeg));
  const whole = ripped(job, marks, 1, layers * thinnestEdgeMm + Math.max(...kerfs));
  const edges = whole.edges.map((wedges, i) => each(wedges, (edgeMm) => (edgeMm - rowAt(kerfs, i)) / layers));
  return layered(job, 'resawn', layers, marks, edges, { count: 1, thicknessMm: whole.thicknessMm });
}

function planed(job: Job, marks: readonly PlannedMark[], layers: number): LayeredCure | undefined {
  const edges = marks.map((mark) =>
    each({ outerMm: mark.outerEdgesMm, innerMm: innerInFrame(mark) }, (edgeMm) => edgeMm / layers),
  );
  const cure = layered(job, 'planed', layers, marks, edges, null);
  return cure.thinMm < THINNEST_PLANED_MM - 1e-9 ? undefined : cure;
}

function steamed(species: string, radiusOverThickness: number): SteamCure | undefined {
  // Softwoods take little from steam (FPL Wood Handbook, from memory).
  if (!isHardwood(species) || radiusOverThickness < STEAMED_IN_STRAP) return undefined;
  return { kind: 'steamed', radiusOverThickness, strap: radiusOverThickness < STEAMED_FREE };
}

const each = ({ outerMm, innerMm }: Wedges, of: (edgeMm: number) => number): Wedges => ({
  outerMm: [of(outerMm[0]), of(outerMm[1])],
  innerMm: [of(innerMm[0]), of(innerMm[1])],
});

function layered(
  job: Job,
  kind: LayeredCure['kind'],
  layers: number,
  marks: readonly PlannedMark[],
  edges: readonly Wedges[],
  plank: LayeredCure['plank'],
): LayeredCure {
  const all = edges.flatMap(({ outerMm, innerMm }) => [...outerMm, ...innerMm]);
  const togetherMm = Math.max(...edges.map(({ outerMm, innerMm }) => layers * (outerMm[0] + innerMm[0])));
  return {
    kind,
    layers,
    thickMm: Math.max(...all),
    thinMm: Math.min(...all),
    plank,
    plies: pliesBetween(job.frame.mouldingMm, togetherMm, job.stack.laminationMm),
    marks: marks.flatMap(({ mark, radiusMm }, i) => {
      const layer = edges[i];
      return layer === undefined ? [] : [{ mark, radiusMm, layers, ...layer }];
    }),
  };
}

/** A cure in words, its lengths as the user writes lengths. */
export function bendCureText(cure: BendCure, length: Length): string {
  if (cure.kind === 'steamed')
    return (
      `steam the wedges${cure.strap ? ' and bend them in a strap with end blocks' : ''} ` +
      `(${wholeFigure(cure.radiusOverThickness)} times the thickness), and dry them on the form before anything is glued`
    );
  const { layers, plank } = cure;
  const upTo = `layers of ${length(cure.thinMm)} to ${length(cure.thickMm)}`;
  const left = `${cure.plies} lamination${cure.plies === 1 ? '' : 's'} then fit between`;
  switch (cure.kind) {
    case 'rips':
      return `${layers} planks of ${length(plank?.thicknessMm ?? 0, 'at least')}, each ripped with 1/${layers} of the bevel: ${upTo}, ${layers} to a wedge; ${left}`;
    case 'resawn':
      return `a plank of ${length(plank?.thicknessMm ?? 0, 'at least')}, each wedge resawn into ${layers} that share its angle: ${upTo}; ${left}`;
    case 'planed':
      return `each wedge as ${layers} tapered layers planed to its 1/${layers}: ${upTo}; ${left}`;
  }
}
