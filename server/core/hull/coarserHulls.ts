/**
 * A hull by fewer of its stations or points, and faired once more: how far its bevels then go tells how far they can be trusted as they are.
 * The outermost stations, the ends of every section and its knuckles always stay.
 */
import { type FairedOffsets, fairedAgain } from './fairOffsets.ts';
import type { OffsetTable } from './offsets.ts';
import { type HullSurface, hullSurface } from './surface.ts';

export interface CoarserHulls {
  /** By every other station. */
  readonly byStations: readonly HullSurface[];
  /** Without every third point of each section: all others keep their neighbours, so that it is told what that point itself tells. */
  readonly byPoints: readonly HullSurface[];
  /** Faired once more; none where fairing moved nothing. */
  readonly fairedAgain: readonly HullSurface[];
}

/** A third of the nodes of the hull itself: what is asked is a difference of which a twentieth does not matter. */
const NODES = 32;

export function coarserHulls(faired: FairedOffsets, toleranceMm: number): CoarserHulls {
  const { table, moved } = faired;
  const surface = (coarser: OffsetTable): HullSurface => hullSurface(coarser, NODES);
  return {
    byStations: [0, 1].map((rest) => surface(everyOtherStation(table, rest))),
    byPoints: [0, 1, 2].map((rest) => surface(withoutEveryThirdPoint(table, rest))),
    fairedAgain: moved.length === 0 ? [] : [surface(fairedAgain(faired, toleranceMm))],
  };
}

const isEnd = (i: number, { length }: readonly unknown[]): boolean => i === 0 || i === length - 1;

const everyOtherStation = (table: OffsetTable, rest: number): OffsetTable => ({
  ...table,
  stations: table.stations.filter((_, i, all) => isEnd(i, all) || i % 2 === rest),
});

const withoutEveryThirdPoint = (table: OffsetTable, rest: number): OffsetTable => ({
  ...table,
  stations: table.stations.map((station) => ({
    ...station,
    points: station.points.filter((point, i, all) => isEnd(i, all) || point.isKnuckle || i % 3 !== rest),
  })),
});
