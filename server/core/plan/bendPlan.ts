/** What the plan tells of the bend of the two wedges: at every mark against the published limit, and what cures it. */
import type { Job } from '../job.ts';
import { STRAIGHT_MM } from '../rip/lineWander.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { edgeOf } from '../rip/wedges.ts';
import { type BendCure, bendCures } from '../stack/bendCures.ts';
import { breakingRadiusOverThickness, leastRadiusOverThickness } from '../stack/bendLimit.ts';
import type { FlatsAt } from '../stack/flats.ts';
import {
  flatRadiusMm,
  innerInFrame,
  isWithinLimit,
  type LayerBend,
  sharpestOf,
  strengthKept,
  wedgeBends,
  wholeWedges,
} from '../stack/wedgeBend.ts';

export interface BendPlan {
  readonly species: string;
  /** The published limit for this wood: radius over thickness may not be less. */
  readonly leastRadiusOverThickness: number;
  /** Where it breaks cold by its strength; null for a wood that is in no table of ours. */
  readonly breakingRadiusOverThickness: number | null;
  /** The marks where the frame turns, from the heel; none without a pattern. */
  readonly marks: readonly MarkBend[];
  /** The laminations where the stack turns most sharply; left out without a pattern, and where the stack is straight. */
  readonly lamination?: LaminationBend;
  /** Each by itself makes both wedges bend at every mark; none where they do as they are. */
  readonly cures: readonly BendCure[];
}

interface MarkBend {
  readonly mark: number;
  readonly outer: WedgeBend;
  readonly inner: WedgeBend;
  readonly isTooSharp: boolean;
}

interface WedgeBend {
  /** Thick edge. */
  readonly thicknessMm: number;
  /** The smallest of the wedge's own concave face, from edge to edge. */
  readonly radiusMm: number;
  readonly radiusOverThickness: number;
  /** Share of its strength that it keeps, bent so; 0 where it would keep nothing. */
  readonly strengthKept: number;
}

interface LaminationBend {
  readonly mark: number;
  readonly thicknessMm: number;
  /** Of the lamination's concave face. */
  readonly radiusMm: number;
  readonly radiusOverThickness: number;
  /** The thickest lamination that the published limit allows there. */
  readonly atMostMm: number;
  readonly isTooSharp: boolean;
}

/** `plies`: parallel laminations between the wedges. */
export function bendPlanOf(job: Job, marks: readonly PlannedMark[], flatsAt: FlatsAt, plies: number): BendPlan {
  const { species } = job.stack;
  const least = leastRadiusOverThickness(species);
  const bends = wedgeBends(job, marks, flatsAt);
  const lamination = laminationBendOf(job, marks, flatsAt, plies);
  const outers = byMark(bends, 'outer');
  const inners = byMark(bends, 'inner');
  return {
    species,
    leastRadiusOverThickness: least,
    breakingRadiusOverThickness: breakingRadiusOverThickness(species) ?? null,
    marks: marks.flatMap(({ mark }) => {
      const [outer, inner] = [outers.get(mark), inners.get(mark)];
      if (outer === undefined || inner === undefined) return [];
      return [
        { mark, outer: bendOf(outer), inner: bendOf(inner), isTooSharp: !isWithinLimit([outer, inner], species) },
      ];
    }),
    ...(lamination === undefined ? {} : { lamination }),
    cures: bendCures(job, marks, flatsAt),
  };
}

/**
 * Laminations are of one thickness, so all of them lie parallel to the outer wedge's flat: in a bilge the concave face of the
 * innermost lies a stack deeper, in a reverse turn that of the outermost is the flat itself.
 */
function laminationBendOf(
  job: Job,
  marks: readonly PlannedMark[],
  flatsAt: FlatsAt,
  plies: number,
): LaminationBend | undefined {
  const { mouldedFace, mouldingMm } = job.frame;
  const { species, laminationMm: thicknessMm } = job.stack;
  if (plies === 0) return undefined;
  const least = leastRadiusOverThickness(species);
  const bends = marks.flatMap((at) => {
    const flats = flatsAt(at.mark);
    if (flats === undefined) return [];
    const flatMm = flatRadiusMm(wholeWedges(at), 'outer', flats, mouldedFace, mouldingMm) ?? 0;
    // Thinner laminations fill the room between the flats at the most.
    const roomMm = mouldingMm - edgeOf(at.outerEdgesMm, mouldedFace) - edgeOf(innerInFrame(at), mouldedFace);
    const [radiusMm, leastMm] = [plies * thicknessMm, roomMm].map((deepMm) =>
      Math.max(0, flatMm > 0 ? flatMm - deepMm : -flatMm),
    ) as [number, number];
    return [
      { mark: at.mark, thicknessMm, radiusMm, radiusOverThickness: radiusMm / thicknessMm, atMostMm: leastMm / least },
    ];
  });
  const sharpest = sharpestOf(bends);
  if (sharpest === undefined || sharpest.radiusMm >= STRAIGHT_MM) return undefined;
  return { ...sharpest, isTooSharp: !isWithinLimit([sharpest], species) };
}

const byMark = (bends: readonly LayerBend[], wedge: LayerBend['wedge']): ReadonlyMap<number, LayerBend> =>
  new Map(bends.filter((bend) => bend.wedge === wedge).map((bend) => [bend.mark, bend]));

/** One wedge may lie straight where the other turns: a figure without end is none. */
function bendOf({ thicknessMm, radiusMm: found }: LayerBend): WedgeBend {
  const radiusMm = Math.min(found, STRAIGHT_MM);
  const radiusOverThickness = radiusMm / thicknessMm;
  return { thicknessMm, radiusMm, radiusOverThickness, strengthKept: strengthKept(radiusOverThickness) };
}

/** The wedge and the mark whose radius is smallest for the thickness. */
export const sharpestWedge = (marks: readonly MarkBend[]) =>
  sharpestOf(
    marks.flatMap(({ mark, outer, inner }) => [
      { ...outer, mark, wedge: 'outer' as const },
      { ...inner, mark, wedge: 'inner' as const },
    ]),
  );
