/**
 * Points that stand off the fair line by a slip of the pen: which cell, and what would be fair there. A point is accused if it stands off
 * by clearly more than the table is rough, if a usual slip explains it, and if with the fair figure in its place the hull around it is fair:
 * a feature of the shape, which is no slip, stays as rough as it was. Where no usual slip explains it, it is told as odd.
 * Source: pointResiduals.ts; the error's size by the median (Huber, Robust Statistics, 1981, section 5.1; from memory).
 * False alarms and slips found are measured in test/core/hull/slips.test.ts.
 */
import type { Problem } from '../errors.ts';
import { sdByMedian } from '../numeric/median.ts';
import type { OffsetTable } from './offsets.ts';
import { type PointResidual, pointResidualReader } from './pointResiduals.ts';
import { penSlips } from './slipCauses.ts';
import { slipProblem, type ToldSlip } from './slipProblem.ts';
import { roundingOfMm } from './tableRounding.ts';

/** How many times the table's roughness a point must stand off, and never less than so many steps of rounding, or so much. */
const CLEARLY = 8;
const LEAST_STEPS = 3;
const LEAST_MM = 5;
/** On the outermost stations, for which the others only tell what lies beyond them, so many times more. */
const OUTERMOST = 4;
/** With the fair figure in its place, what is left around it must be less than this share. */
const CALMED = 0.4;
/** The neighbourhood in which a wrong point shows: stations, and share of the girth. */
const STATIONS_ABOUT = 3;
const SHARE_ABOUT = 0.25;
/** What is fair there is known to this share of how far the point stands off. */
const KNOWN = 0.05;
/** A usual slip is believed sooner than none: unless the hull is so many times fairer without. */
const EXPLAINED = 3;
const MOST_TOLD = 20;
const MOST_TRIED = 8;

interface StandingOff {
  /** Slips of the pen. */
  readonly slips: readonly Problem[];
  /** Points that stand off just so, though no usual slip explains them. */
  readonly odd: readonly Problem[];
}

export const slipsIn = (table: OffsetTable): readonly Problem[] => standingOff(table).slips;

export function standingOff(table: OffsetTable): StandingOff {
  const slips: Problem[] = [];
  const odd: Problem[] = [];
  const roundingMm = roundingOfMm(table);
  const read = pointResidualReader(table.stations.map(({ xMm }) => xMm));
  let mended = table;
  let off = read(table);
  while (slips.length + odd.length < MOST_TOLD && off.length > 0) {
    const roughMm = Math.max(sdByMedian(off.map(sizeOf)), roundingMm / 4);
    const found = accused(read, mended, off, roughMm, roundingMm);
    if (found === undefined) break;
    (found.slip === undefined ? odd : slips).push(slipProblem(table.file, found));
    mended = found.table;
    off = read(mended);
  }
  return { slips, odd };
}

/** Of the points that stand off most, the one without whose slip the hull around it is fairest. */
function accused(
  read: ReturnType<typeof pointResidualReader>,
  table: OffsetTable,
  off: readonly PointResidual[],
  roughMm: number,
  roundingMm: number,
): Mended | undefined {
  const suspects = off
    .filter((one) => isClear(one, table.stations.length, roughMm, roundingMm))
    .sort((a, b) => sizeOf(b) - sizeOf(a))
    .slice(0, MOST_TRIED);
  const tried = suspects.flatMap((suspect) => {
    const withinMm = Math.max(3 * roughMm * suspect.swell, roundingMm, KNOWN * Math.abs(suspect.offMm));
    const meant = [...mends(table, suspect, withinMm), ...exchanged(table, suspect, withinMm)];
    return [...meant, ...unexplained(table, suspect)].map((mended) => {
      const near = { station: suspect.station, within: STATIONS_ABOUT };
      const rest = restAbout(suspect, read(mended.table, near));
      const believed = rest * (mended.slip === undefined ? EXPLAINED : 1);
      return { mended, believed, isCalm: rest <= CALMED * restAbout(suspect, off) };
    });
  });
  return tried.filter(({ isCalm }) => isCalm).sort((a, b) => a.believed - b.believed)[0]?.mended;
}

const sizeOf = ({ offMm, swell }: PointResidual): number => Math.abs(offMm) / swell;
function isClear(one: PointResidual, stations: number, roughMm: number, roundingMm: number): boolean {
  const isOutermost = one.station === 0 || one.station === stations - 1;
  const times = isOutermost ? OUTERMOST : 1;
  const leastMm = times * Math.max(LEAST_MM, LEAST_STEPS * roundingMm);
  return sizeOf(one) > times * CLEARLY * roughMm && Math.abs(one.offMm) > leastMm;
}

interface Mended extends ToldSlip {
  readonly table: OffsetTable;
}

/**
 * What half-breadth or height could have been meant: it puts the point on the fair line, and between the points above and below. Where
 * the section runs along so that many would, the one that lies best in the gap.
 */
function mends(table: OffsetTable, suspect: PointResidual, withinMm: number): readonly Mended[] {
  const { point } = suspect;
  return (['y', 'z'] as const).flatMap((side) => {
    const [cell, foundMm] = side === 'y' ? [point.yCell, point.yMm] : [point.zCell, point.zMm];
    const at = (mm: number): [yMm: number, zMm: number] => (side === 'y' ? [mm, point.zMm] : [point.yMm, mm]);
    const meant = penSlips(cell.text, foundMm)
      .filter(({ mm }) => side === 'z' || mm >= 0)
      .map((slip) => ({ ...slip, ...suspect.ifAt(...at(slip.mm)) }))
      .filter(({ isInOrder, offMm }) => isInOrder && Math.abs(offMm) <= withinMm)
      .sort((a, b) => Math.abs(a.offMm) - Math.abs(b.offMm))[0];
    if (meant === undefined) return [];
    const fairMm = (side === 'y' ? suspect.fairYMm : suspect.fairZMm) ?? meant.mm;
    return [{ ...withPointAt(table, suspect, at(meant.mm)), side, fairMm, suspect, slip: meant.what }];
  });
}

/** Half-breadth and height of one row, each in the other's column. */
function exchanged(table: OffsetTable, suspect: PointResidual, withinMm: number): readonly Mended[] {
  const { yMm, zMm, yCell, zCell } = suspect.point;
  if (yCell.row !== zCell.row || yCell.column === zCell.column || zMm < 0) return [];
  const { isInOrder, offMm } = suspect.ifAt(zMm, yMm);
  if (!isInOrder || Math.abs(offMm) > withinMm) return [];
  return [{ ...withPointAt(table, suspect, [zMm, yMm]), side: 'both', fairMm: zMm, suspect, slip: 'exchanged' }];
}

/** What would be fair there, whatever the pen did. */
function unexplained(table: OffsetTable, suspect: PointResidual): readonly Mended[] {
  const { point, fairYMm, fairZMm } = suspect;
  return (['y', 'z'] as const).flatMap((side) => {
    const fairMm = side === 'y' ? fairYMm : fairZMm;
    if (fairMm === undefined || (side === 'y' && fairMm < 0)) return [];
    const to: [number, number] = side === 'y' ? [fairMm, point.zMm] : [point.yMm, fairMm];
    if (!suspect.ifAt(...to).isInOrder) return [];
    return [{ ...withPointAt(table, suspect, to), side, fairMm, suspect, slip: undefined }];
  });
}

function withPointAt(
  table: OffsetTable,
  { station, point }: PointResidual,
  [yMm, zMm]: readonly [number, number],
): Pick<Mended, 'table' | 'station'> {
  const stations = table.stations.map((one, i) =>
    i === station
      ? { ...one, points: one.points.map((other) => (other === point ? { ...point, yMm, zMm } : other)) }
      : one,
  );
  return { table: { ...table, stations }, station: table.stations[station]?.label ?? '' };
}

function restAbout(worst: PointResidual, after: readonly PointResidual[]): number {
  const about = after.filter(
    ({ station, share }) =>
      Math.abs(station - worst.station) <= STATIONS_ABOUT && Math.abs(share - worst.share) <= SHARE_ABOUT,
  );
  return Math.max(0, ...about.map(sizeOf));
}
