/**
 * Stations whose place along the boat (x) is wrong in the table: every point is right in itself, but all of them stand off what the other
 * stations say, and would not if the station stood where a usual slip of the pen has it come from. Told only if moving it there takes away
 * nearly all that it stands off, and calms the stations around: a feature of the shape stays as rough wherever its station stands.
 * Source: pointResiduals.ts, slipCauses.ts. False alarms and slips found are measured in test/core/hull/misplaced.test.ts.
 * Where the hull hardly changes lengthwise (a parallel middle) a wrong place neither shows nor matters.
 */
import type { Problem } from '../errors.ts';
import { median } from '../numeric/median.ts';
import type { Cell, HullStation, OffsetTable } from './offsets.ts';
import { type DrawnSections, type Near, pointResidualReader } from './pointResiduals.ts';
import { type PenSlip, penSlips } from './slipCauses.ts';
import { asWritten } from './slipProblem.ts';
import { roundingOfMm } from './tableRounding.ts';

/** How many times what stations usually stand off, and never less than so much, or this share of the rounding. */
const CLEARLY = 5;
const LEAST_MM = 1.5;
const ROUNDINGS = 1.5;
/** At its right place less than this share is left of it, and around it of the worst there. */
const MENDED = 0.25;
const CALMED = 0.4;
/** Fairer than this, one place is as good as another: then that which spaces the stations evenly is believed. */
const AS_GOOD = 2;
const STATIONS_ABOUT = 3;
/** The outermost two at each end are only known from one side. */
const OUTERMOST = 2;
/** Fewer stations do not tell a wrong place from shape (a false alarm in some hundred tables of six); of more it would take seconds. */
const [FEWEST, MOST] = [8, 60];
const MOST_TRIED = 4;
const MOST_TOLD = 5;

interface Misplaced {
  readonly problems: readonly Problem[];
  /** The table with those stations where they would be fair. */
  readonly table: OffsetTable;
}

export function misplacedStations(table: OffsetTable): Misplaced {
  const problems: Problem[] = [];
  if (table.stations.length < FEWEST || table.stations.length > MOST) return { problems, table };
  const read = awayReader();
  let mended = table;
  while (problems.length < MOST_TOLD) {
    const found = worstMisplaced(read, mended);
    if (found === undefined) break;
    problems.push(found.problem);
    mended = found.table;
  }
  return { problems, table: mended };
}

type ReadAway = (table: OffsetTable, near?: Near) => readonly number[];

/** How far each station stands off as a whole, by the rms of its points; NaN of those that were not asked for. */
function awayReader(): ReadAway {
  const drawn: DrawnSections = new Map();
  return (table, near) => {
    const places = table.stations.map(({ xMm }) => xMm);
    const sums = places.map(() => ({ squares: 0, count: 0 }));
    for (const { station, awayMm, swell } of pointResidualReader(places, drawn)(table, near)) {
      const sum = sums[station];
      if (sum === undefined) continue;
      sum.squares += (awayMm / swell) ** 2;
      sum.count += 1;
    }
    return sums.map(({ squares, count }) => Math.sqrt(squares / count));
  };
}

function worstMisplaced(read: ReadAway, table: OffsetTable): Moved | undefined {
  const away = read(table);
  const leastMm = Math.max(LEAST_MM, ROUNDINGS * roundingOfMm(table));
  const tried = away
    .map((mm, station) => ({ mm, station }))
    .filter(({ mm, station }) => mm > leastMm && isInner(station, away))
    .sort((a, b) => b.mm - a.mm)
    .slice(0, MOST_TRIED)
    .flatMap(({ mm, station }) => {
      const there = moved(read, table, mm, station);
      if (there === undefined) return [];
      const left = read(there.table);
      // What is usual is only known without the wrong place, which puts all stations around off too.
      const usualMm = median(left.filter((_, i) => isInner(i, left)));
      const leftAbout = worstAbout(left, station);
      return mm > CLEARLY * usualMm && leftAbout <= CALMED * worstAbout(away, station) ? [{ ...there, leftAbout }] : [];
    });
  return tried.sort((a, b) => a.leftAbout - b.leftAbout)[0];
}

const isInner = (station: number, { length }: readonly number[]): boolean =>
  station >= OUTERMOST && station < length - OUTERMOST;

/** Of the stations around, but for the outermost, which are off anyhow. */
const worstAbout = (away: readonly number[], station: number): number =>
  Math.max(
    ...away.filter(
      (mm, i) => !Number.isNaN(mm) && Math.abs(i - station) <= STATIONS_ABOUT && i > 0 && i < away.length - 1,
    ),
  );

interface Moved {
  readonly table: OffsetTable;
  readonly problem: Problem;
}

/** The station at the place that was meant; undefined where none that the pen could have slipped from mends it. */
function moved(read: ReadAway, table: OffsetTable, awayMm: number, at: number): Moved | undefined {
  const [before, station, after] = [table.stations[at - 1], table.stations[at], table.stations[at + 1]];
  if (before === undefined || station?.xCell === undefined || after === undefined) return undefined;
  const tried = penSlips(station.xCell.text, station.xMm)
    .filter(({ mm }) => mm > before.xMm && mm < after.xMm)
    .map((slip) => {
      const stations = table.stations.map((one, i) => (i === at ? { ...one, xMm: slip.mm } : one));
      const there = { ...table, stations };
      const leftMm = read(there, { station: at, within: 0 })[at] ?? Number.NaN;
      return { slip, table: there, leftMm, unevenMm: Math.abs(before.xMm + after.xMm - 2 * slip.mm) };
    })
    .filter(({ leftMm }) => leftMm <= MENDED * awayMm);
  const leastMm = Math.min(...tried.map(({ leftMm }) => leftMm));
  const best = tried
    .filter(({ leftMm }) => leftMm <= AS_GOOD * leastMm)
    .sort((a, b) => a.unevenMm - b.unevenMm || a.leftMm - b.leftMm)[0];
  return best && { table: best.table, problem: problemOf(table.file, station, station.xCell, best.slip) };
}

const problemOf = (file: string, { label, xMm }: HullStation, cell: Cell, { what, mm }: PenSlip): Problem => ({
  code: 'off-the-fair-line',
  at: { file, row: cell.row, column: cell.column },
  found: `${JSON.stringify(cell.text)} as the place of station ${label}, where all its points stand off the fair line together`,
  wanted: `${asWritten(cell.text, mm, xMm)}, where they would be fair (perhaps ${what}); look up in the lines plan where station ${label} stands, for every bevel near it hangs on that`,
});
