import { DEGREE_BY_DEGREE } from '../routine/degreeByDegree.ts';
import { EVEN_TURNING } from '../routine/evenTurning.ts';
import { FOLLOWING } from '../routine/following.ts';
import { MARK_BY_MARK } from '../routine/markByMark.ts';
import type { Routine } from '../routine/routine.ts';
import type { Simulation } from './simulation.ts';

/** What can be simulated, in plain words: a routine, and what tells where the stock is. */
export interface SimulatedChoice {
  readonly routine: Routine;
  readonly source: Simulation['source'];
  readonly seesTilt?: NonNullable<Simulation['seesTilt']>;
}

export const SHOP_ROUTINE = 'shop routine';

const [MARK, EVEN, DEGREE, FOLLOW] = [MARK_BY_MARK.name, EVEN_TURNING.name, DEGREE_BY_DEGREE.name, FOLLOWING.name];

export const CHOICES: Readonly<Record<string, SimulatedChoice>> = {
  [SHOP_ROUTINE]: { routine: MARK, source: 'shop' },
  'mark by mark on the pedal': { routine: MARK, source: 'press' },
  'mark by mark on scanned marks': { routine: MARK, source: 'scan' },
  'mark by mark on a measuring wheel': { routine: MARK, source: 'travel' },
  [EVEN]: { routine: EVEN, source: 'travel' },
  'even turning, wheel and marks': { routine: EVEN, source: 'travel and scan' },
  [DEGREE]: { routine: DEGREE, source: 'travel' },
  'degree by degree, wheel and marks': { routine: DEGREE, source: 'travel and scan' },
  'following on the readout': { routine: FOLLOW, source: 'travel', seesTilt: 'readout' },
  'following on a tilt sensor': { routine: FOLLOW, source: 'travel', seesTilt: 'sensor' },
  'following on a tilt sensor, wheel and marks': {
    routine: FOLLOW,
    source: 'travel and scan',
    seesTilt: 'sensor',
  },
};
