/**
 * Between the turns of a handwheel and the tilt of the blade, where a turn is not worth the same everywhere and where the gear has
 * looseness.
 *
 * Where a table says how the tilt goes with the turns (a screw that pushes an arm turns the trunnion more at one end than at the
 * other), the wheel is reckoned in *even degrees*: the tilt that the same turns would give at `degreesPerTurn` all along. Times
 * follow from even degrees as they did from degrees, and without a table the two are the same to the last digit. Between two rows
 * of the table it is a straight line, beyond its ends the end rows' line goes on.
 *
 * Looseness (backlash) is turned through, without the tilt moving, each time the way of turning changes.
 */
import { rowAt } from '../rowAt.ts';

/** Pairs of (turns of the handwheel, true tilt), both strictly rising; turns counted from any zero. */
export type TurnsTable = readonly (readonly [turns: number, tiltDeg: number])[];

export interface Handwheel {
  readonly degreesPerTurn: number;
  /** At least two rows where it is given. */
  readonly turnsTable?: TurnsTable;
  /** Turns that the wheel goes through before the tilt follows, when the way of turning changes. */
  readonly backlashTurns?: number;
}

/** The way of a turn: toward more tilt, toward less; 0 where it is not known. */
export type Way = -1 | 0 | 1;
export const wayOf = (fromDeg: number, toDeg: number): Way => Math.sign(toDeg - fromDeg) as Way;

/** Where the wheel stands for a tilt (degrees), in even degrees; 0 where the blade is square. */
export function evenDeg({ degreesPerTurn, turnsTable }: Handwheel, tiltDeg: number): number {
  if (turnsTable === undefined || turnsTable.length < 2) return tiltDeg;
  return (along(turnsTable, 1, 0, tiltDeg) - along(turnsTable, 1, 0, 0)) * degreesPerTurn;
}

/** The tilt (degrees) of a wheel that stands at so many even degrees. */
export function tiltOfEvenDeg({ degreesPerTurn, turnsTable }: Handwheel, even: number): number {
  if (turnsTable === undefined || turnsTable.length < 2) return even;
  return along(turnsTable, 0, 1, even / degreesPerTurn + along(turnsTable, 1, 0, 0));
}

/** How many even degrees a degree of tilt takes there. */
export function evenPerDeg({ degreesPerTurn, turnsTable }: Handwheel, tiltDeg: number): number {
  if (turnsTable === undefined || turnsTable.length < 2) return 1;
  const [low, high] = rowsAround(turnsTable, 1, tiltDeg);
  return ((high[0] - low[0]) / (high[1] - low[1])) * degreesPerTurn;
}

/** The looseness in even degrees. */
export const looseDeg = ({ degreesPerTurn, backlashTurns = 0 }: Handwheel): number => backlashTurns * degreesPerTurn;

/**
 * Even degrees from one tilt to another, the looseness with them where the way changes. `before`: the way of the turn before this
 * one; where that is not known the looseness is counted, for it may lie either way.
 */
export function turnedDeg(wheel: Handwheel, fromDeg: number, toDeg: number, before: Way): number {
  const turned = Math.abs(evenDeg(wheel, toDeg) - evenDeg(wheel, fromDeg));
  return turned > 0 && wayOf(fromDeg, toDeg) !== before ? turned + looseDeg(wheel) : turned;
}

/** A saw's wheel and how fast its crew turns it: the plan, the job and what is paced hold both; a run's setup is made to. */
export interface CrewedWheel {
  readonly saw: Handwheel;
  readonly crew: { readonly turnsPerS: number };
}

/** The wheel's rate, even degrees a second. Everywhere the one; only a modelled hand moves by it in small steps of time. */
export const wheelDegPerS = ({ saw, crew }: CrewedWheel): number => saw.degreesPerTurn * crew.turnsPerS;

/** Seconds in which so many even degrees are turned, as fast as the crew does. */
export const timeOfTurnS = (crewed: CrewedWheel, turnedEvenDeg: number): number => turnedEvenDeg / wheelDegPerS(crewed);

/** Seconds from one tilt to another, the looseness with them where the way changes; see `turnedDeg`. */
export const timeBetweenS = (crewed: CrewedWheel, fromDeg: number, toDeg: number, before: Way): number =>
  timeOfTurnS(crewed, turnedDeg(crewed.saw, fromDeg, toDeg, before));

/**
 * Where the wheel stands at each of some tilts, one after the other, in even degrees: half the looseness ahead of the tilt in the
 * way of the turn that led there, so that two places differ by all that is turned between them. `before`: the way of the turn
 * that led to the first of them.
 */
export function wheelAlong(wheel: Handwheel, tiltsDeg: readonly number[], before: Way): readonly number[] {
  const half = looseDeg(wheel) / 2;
  // A way that is not known may be the wrong one.
  let way: Way = before === 0 ? (-firstWay(tiltsDeg) as Way) : before;
  let lastDeg = rowAt(tiltsDeg, 0);
  return tiltsDeg.map((tiltDeg) => {
    way = wayOf(lastDeg, tiltDeg) || way;
    lastDeg = tiltDeg;
    return evenDeg(wheel, tiltDeg) + way * half;
  });
}

/** The way that led to the last of some figures that were turned to one after the other, from square. */
export const wayTo = (figures: readonly number[]): Way =>
  wayToNth(figures.length - 1, (index) => rowAt(figures, index));

/** The same where the figures stand in something else: the way that led to the one at `index`. */
export function wayToNth(index: number, figureAt: (index: number) => number): Way {
  for (let at = index; at >= 0; at -= 1) {
    const way = wayOf(at === 0 ? 0 : figureAt(at - 1), figureAt(at));
    if (way !== 0) return way;
  }
  return 0;
}

function firstWay(tiltsDeg: readonly number[]): Way {
  const first = rowAt(tiltsDeg, 0);
  const other = tiltsDeg.find((tiltDeg) => tiltDeg !== first);
  return other === undefined ? 0 : wayOf(first, other);
}

function along(table: TurnsTable, from: 0 | 1, to: 0 | 1, x: number): number {
  const [low, high] = rowsAround(table, from, x);
  return low[to] + ((x - low[from]) / (high[from] - low[from])) * (high[to] - low[to]);
}

/** The two rows on whose line a place lies. */
function rowsAround(table: TurnsTable, column: 0 | 1, x: number): readonly [TurnsTable[number], TurnsTable[number]] {
  const beyond = table.findIndex((row) => row[column] > x);
  const high = beyond === -1 ? table.length - 1 : Math.max(1, beyond);
  const [low, next] = [table[high - 1], table[high]];
  if (low === undefined || next === undefined) throw new Error(`a table of turns needs two rows, not ${table.length}`);
  return [low, next];
}
