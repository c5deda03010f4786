/**
 * What a sawn bevel from a table of offsets may be wrong by, as one standard deviation: the root of the summed squares of four parts.
 * - Rounding: what it makes of the hull's two places at either end of the chord (tableError.ts), and of the heel from which girths count.
 * - Stations: how far the bevel goes where only every other station is taken.
 * - Points: how far it goes without every third point of each section, the three ways taken together, less what rounding alone makes of that.
 * - Fairing: how far it goes where the hull is faired once more, which is about what fairing has taken from its shape.
 * Source: derived; for the shares of these differences measured over random hulls (test/core/frame/bevelError.test.ts): a spline of the
 * fourth order through all is several times as good as one through half, but at an end it has points on one side only and is no better.
 * Error: twice the figure covers the true error at 97 to 98 of 100 places (hulls of 21 stations, exact, to the millimetre and the eighth).
 * Two stations tell nothing of how the hull runs between them: then only points and rounding count.
 */
import type { FairHull } from '../hull/fairHull.ts';
import type { HullSurface } from '../hull/surface.ts';
import { cosDeg, radToDeg } from '../units.ts';
import { type FrameStand, type HullFrame, sawnAlong } from './hullFrame.ts';

/** Which share of a difference counts well inside and at the very end, and over how many bays or points the one goes over into the other. */
const STATIONS = { inside: 0.25, end: 1, over: 2 };
const POINTS = { inside: 0.2, end: 1.25, over: 2 };
/** What the rounding of three differences adds up to at least, as variance over that of the bevel itself. */
const OF_ROUNDING = 2;

/** By girth from the heel. */
export function bevelErrorDeg(hull: FairHull, frame: HullFrame, stand: FrameStand): (girthMm: number) => number {
  let coarser: CoarserBevels | undefined;
  return (girthMm) => {
    coarser ??= coarserBevels(hull, stand);
    const { stations, points, fairing } = coarser;
    const { sawnDeg, sawnSlopeDegPerMm } = frame.at(girthMm);
    const { piece, near, far, cosTurn } = frame.chordAt(girthMm);
    const { bays, points: spans } = hull.error.fromEnds(piece, near);
    const outwardMm = hull.error.apartMm(piece, near, far, 1 / cosTurn);
    const apartDeg = (others: readonly BevelAt[]): readonly number[] =>
      others.map((sawnAt) => Math.abs(sawnAt(girthMm) - sawnDeg));
    const roundingDeg = Math.hypot(
      radToDeg(outwardMm / stand.sidingMm) * cosDeg(sawnDeg) ** 2,
      sawnSlopeDegPerMm * hull.error.figureMm,
    );
    const pointsDeg = Math.sqrt(Math.max(0, Math.hypot(...apartDeg(points)) ** 2 - OF_ROUNDING * roundingDeg ** 2));
    return Math.hypot(
      roundingDeg,
      shareAt(STATIONS, bays) * Math.max(0, ...apartDeg(stations)),
      shareAt(POINTS, spans) * pointsDeg,
      ...apartDeg(fairing),
    );
  };
}

type BevelAt = (girthMm: number) => number;
type CoarserBevels = Readonly<Record<'stations' | 'points' | 'fairing', readonly BevelAt[]>>;

function coarserBevels(hull: FairHull, stand: FrameStand): CoarserBevels {
  const { byStations, byPoints, fairedAgain } = hull.coarser();
  // A hull that such a frame does not cross says nothing.
  const bevels = (surfaces: readonly HullSurface[]): readonly BevelAt[] =>
    surfaces.flatMap((surface) => sawnAlong(surface, stand) ?? []);
  return { stations: bevels(byStations), points: bevels(byPoints), fairing: bevels(fairedAgain) };
}

const shareAt = ({ inside, end, over }: typeof STATIONS, fromEnd: number): number =>
  inside + (end - inside) * Math.max(0, 1 - fromEnd / over);
