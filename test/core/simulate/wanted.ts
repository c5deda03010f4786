/** What should be called on a plan's stock, found without the engine: by looking at every half millimetre of it. */
import type { Plan } from '../../../server/core/plan/plan.ts';
import { tiltAt } from '../../../server/core/run/engine/profile.ts';
import { makeSetup } from '../../../server/core/run/makeSetup.ts';
import { shownDeg } from '../../../server/core/saw/readout.ts';

export interface Wanted {
  /** What the plan calls at each mark. */
  readonly callDegs: ReadonlyMap<number, number>;
  /** Where each mark lies along the stock. */
  readonly placesMm: ReadonlyMap<number, number>;
  /** Where each half degree is the nearest one to the exact tilt, in the order of the run. */
  readonly stretches: readonly Stretch[];
  /** How fast the wheel turns the tilt, and how soon the hand begins to. */
  readonly degPerMs: number;
  readonly reactionMs: number;
}
export interface Stretch {
  readonly deg: number;
  readonly fromMm: number;
  readonly toMm: number;
}

const LOOK_MM = 0.5;
const HALF_DEGREE = 0.5;

export function wantedOf(plan: Plan): Wanted {
  const setup = makeSetup(plan, 'pair', {});
  const stepDeg = Math.max(HALF_DEGREE, plan.saw.readoutDeg);
  const endMm = setup.stations.at(-1)?.positionMm ?? 0;
  const stretches: Stretch[] = [];
  for (let mm = 0; mm < endMm; mm += LOOK_MM) {
    const deg = Math.round(shownDeg(tiltAt(setup, mm), plan.saw.readoutTable) / stepDeg) * stepDeg;
    const last = stretches.at(-1);
    if (last !== undefined && Math.abs(last.deg - deg) < 1e-9)
      stretches[stretches.length - 1] = { ...last, toMm: mm + LOOK_MM };
    else stretches.push({ deg, fromMm: mm, toMm: mm + LOOK_MM });
  }
  return {
    callDegs: new Map(plan.marks.map(({ mark, callDeg }) => [mark, callDeg])),
    placesMm: new Map(setup.stations.map(({ mark, positionMm }) => [mark, positionMm])),
    stretches,
    degPerMs: (plan.crew.turnsPerS * plan.saw.degreesPerTurn) / 1000,
    reactionMs: plan.crew.reactionS * 1000,
  };
}
