/**
 * The wheel along a tilt that is followed, where its looseness is taken up before the tilt has to move: where the tilt turns back it
 * stays near its turning point for a while, and the wheel goes through the looseness meanwhile.
 */
import { rowAt } from '../rowAt.ts';
import { evenDeg, type Handwheel, looseDeg, type Way, wayOf } from '../saw/handwheel.ts';

/**
 * Even degrees at each of some places. `within`: the tilt may be so far from where it turns back while the looseness is taken up.
 * `before`: the way of the turn that led to the first place; where it is not known, the looseness is counted.
 */
export function backlashAlong(
  wheel: Handwheel,
  alongMm: readonly number[],
  tiltsDeg: readonly number[],
  before: Way,
  withinDeg: number,
): readonly number[] {
  const half = looseDeg(wheel) / 2;
  const deg = tiltsDeg.map((tilt) => evenDeg(wheel, tilt));
  const ahead = (from: number, to: number, way: Way): void => {
    for (let i = from; i < to; i += 1) deg[i] = rowAt(deg, i) + way * half;
  };
  let way = before;
  let from = 0;
  for (const turn of turnsBack(tiltsDeg, before, withinDeg)) {
    ahead(from, turn.first, way);
    const top = evenDeg(wheel, rowAt(tiltsDeg, turn.at));
    const [startMm, endMm] = [rowAt(alongMm, turn.first), rowAt(alongMm, turn.last)];
    for (let i = turn.first; i <= turn.last; i += 1) {
      // A turning point by itself is reached first, and the looseness taken up on the way from there.
      const share = startMm === endMm ? 0 : (rowAt(alongMm, i) - startMm) / (endMm - startMm);
      deg[i] = top + turn.way * half * (2 * share - 1);
    }
    way = turn.way;
    from = turn.last + 1;
  }
  ahead(from, deg.length, way);
  return deg;
}

interface TurnBack {
  /** The way that it goes on from there. */
  readonly way: Way;
  readonly at: number;
  readonly first: number;
  readonly last: number;
}

/** Where the tilt turns back by more than `withinDeg`, and the places around that lie within as much of it. */
function turnsBack(tilts: readonly number[], before: Way, withinDeg: number): readonly TurnBack[] {
  const turns: TurnBack[] = [];
  let [going, at] = [before, 0];
  for (let i = 1; i < tilts.length; i += 1) {
    const step = wayOf(rowAt(tilts, at), rowAt(tilts, i));
    if (step === 0 || step === going) at = i;
    else if (Math.abs(rowAt(tilts, i) - rowAt(tilts, at)) > withinDeg) {
      turns.push({ way: step, at, ...stretchAround(tilts, at, turns.at(-1)?.last ?? -1, withinDeg) });
      [going, at] = [step, i];
    }
  }
  return turns;
}

function stretchAround(
  tilts: readonly number[],
  at: number,
  after: number,
  withinDeg: number,
): Pick<TurnBack, 'first' | 'last'> {
  const isNear = (i: number): boolean => Math.abs(rowAt(tilts, i) - rowAt(tilts, at)) <= withinDeg;
  let [first, last] = [at, at];
  while (first - 1 > after && isNear(first - 1)) first -= 1;
  while (last + 1 < tilts.length && isNear(last + 1)) last += 1;
  return { first, last };
}
