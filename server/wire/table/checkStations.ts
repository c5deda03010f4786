/** Whether stations that were read can be a hull at all: in order, with distinct points that run from the keel up. */
import type { Problem } from '../../core/errors.ts';
import type { Cell, HullStation } from '../../core/hull/offsets.ts';
import { slipsIn } from '../../core/hull/slips.ts';
import type { ProblemList } from '../problem/problemList.ts';
import { quote, showName } from '../problem/showFound.ts';
import type { DraftStation } from './draftStation.ts';

/** Points nearer than this give the section no direction. */
const NEAREST_MM = 0.01;
/** A section that turns by more than this from one chord to the next doubles back: two rows have changed places. */
const DOUBLES_BACK = Math.cos((120 * Math.PI) / 180);

/** More are no lines plan, and lofting through them takes too long: it grows with the cube of their number. */
const MOST_STATIONS = 150;

/** The stations, from forward aft; what is wrong goes to `problems`. */
export function checkStations(
  file: string,
  drafts: readonly DraftStation[],
  problems: ProblemList,
): readonly HullStation[] {
  const name = showName(file);
  const stations = drafts.map(({ label, xMm, xCell, points }) => ({ label, xMm, xCell, points }));
  const doublings: Problem[] = [];
  const refuse = (code: 'out-of-order' | 'too-few' | 'out-of-range' | 'missing', at: Cell, wanted: string): void =>
    problems.add(
      code,
      { file: name, row: at.row, column: at.column },
      at.text === '' ? 'an empty cell' : quote(at.text),
      wanted,
    );
  if (drafts.length < 2)
    problems.add('too-few', { file: name }, `${drafts.length} station${drafts.length === 1 ? '' : 's'}`, 'at least 2');
  if (drafts.length > MOST_STATIONS) {
    problems.add('too-many', { file: name }, `${drafts.length} stations`, `at most ${MOST_STATIONS} stations`);
    return stations;
  }
  drafts.forEach((station, i) => {
    const before = drafts[i - 1];
    if (before !== undefined && !isBehind(station, i, drafts))
      refuse(
        'out-of-order',
        station.xCell,
        `more than ${before.xCell.text}, where station ${before.label} stands: x grows aft, stations come from forward`,
      );
    checkPoints(station, refuse, (at, wanted) =>
      doublings.push({
        code: 'out-of-order',
        at: { file: name, row: at.row, column: at.column },
        found: quote(at.text),
        wanted,
      }),
    );
  });
  checkKnuckles(name, drafts, problems);
  if (doublings.length === 0) return stations;
  // One wrong figure makes a section double back too; then it helps more to know which, and what would be fair. What the other stations
  // say of it is only known where they stand in order.
  const slips = drafts.every(isBehind) ? slipsIn({ file: name, stations }) : [];
  for (const { code, at, found, wanted } of slips.length > 0 ? slips : doublings) problems.add(code, at, found, wanted);
  return stations;
}

/** Whether a station stands clear behind the one before it. */
const isBehind = ({ xMm }: DraftStation, i: number, drafts: readonly DraftStation[]): boolean =>
  i === 0 || xMm > (drafts[i - 1]?.xMm ?? Number.NaN) + NEAREST_MM;

function checkPoints(
  { label, points, xCell }: DraftStation,
  refuse: (code: 'out-of-order' | 'too-few' | 'out-of-range', at: Cell, wanted: string) => void,
  doublesBack: (at: Cell, wanted: string) => void,
): void {
  if (points.length < 2) refuse('too-few', points[0]?.yCell ?? xCell, `at least 2 points on station ${label}`);
  let isInOrder = !refuseRepeated({ label, points }, refuse);
  points.forEach((point, i) => {
    if (point.yMm < 0) {
      refuse('out-of-range', point.yCell, 'a half-breadth: 0 or more, out from the middle line');
      // Of course the section doubles back there.
      isInOrder = false;
    }
    const [before, first] = [points[i - 1], points[i - 2]];
    if (before === undefined || !isInOrder) return;
    const [dy, dz] = [point.yMm - before.yMm, point.zMm - before.zMm];
    const chordMm = Math.hypot(dy, dz);
    if (first !== undefined) {
      const [ey, ez] = [before.yMm - first.yMm, before.zMm - first.zMm];
      if (dy * ey + dz * ez > DOUBLES_BACK * chordMm * Math.hypot(ey, ez)) return;
      isInOrder = false;
      doublesBack(
        before.zCell,
        `the points of station ${label} in order from the keel up: the section doubles back at this one`,
      );
    }
  });
}

/** Each point that has stood on its station before; whether there is one, for the section then doubles back about it. */
function refuseRepeated(
  { label, points }: Pick<DraftStation, 'label' | 'points'>,
  refuse: (code: 'out-of-order', at: Cell, wanted: string) => void,
): boolean {
  const repeated = points.flatMap((point, i) => {
    const as = points.slice(0, i).find(({ yMm, zMm }) => Math.hypot(point.yMm - yMm, point.zMm - zMm) < NEAREST_MM);
    return as === undefined ? [] : [{ point, as }];
  });
  for (const { point, as } of repeated)
    refuse(
      'out-of-order',
      point.yCell,
      `a point of its own: it is the point of row ${as.yCell.row} again, on station ${label}; delete one of the two`,
    );
  return repeated.length > 0;
}

/** A knuckle joins a knuckle of the next station, so all stations have as many. */
function checkKnuckles(file: string, drafts: readonly DraftStation[], problems: ProblemList): void {
  const countOf = ({ points }: DraftStation): number => points.slice(1, -1).filter(({ isKnuckle }) => isKnuckle).length;
  const most = Math.max(0, ...drafts.map(countOf));
  for (const station of drafts) {
    const found = countOf(station);
    const at = station.points[0];
    if (found < most && at !== undefined)
      problems.add(
        'missing',
        { file, row: at.yCell.row, column: at.yCell.column },
        `${found} knuckle${found === 1 ? '' : 's'} on station ${station.label}`,
        `${most}, as on other stations: mark the point where the line of the knuckle crosses it, though it be faint there`,
      );
  }
}
