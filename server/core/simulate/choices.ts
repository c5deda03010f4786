import type { Routine } from '../routine/routine.ts';
import type { Simulation } from './simulation.ts';

/** What can be simulated, in plain words: a routine, and what tells where the stock is. */
export interface SimulatedChoice {
  readonly routine: Routine;
  readonly source: Simulation['source'];
  readonly seesTilt?: NonNullable<Simulation['seesTilt']>;
}

export const SHOP_ROUTINE = 'shop routine';

export const CHOICES: Readonly<Record<string, SimulatedChoice>> = {
  [SHOP_ROUTINE]: { routine: 'mark by mark', source: 'shop' },
  'mark by mark on the pedal': { routine: 'mark by mark', source: 'press' },
  'mark by mark on scanned marks': { routine: 'mark by mark', source: 'scan' },
  'mark by mark on a measuring wheel': { routine: 'mark by mark', source: 'travel' },
  'even turning': { routine: 'even turning', source: 'travel' },
  'even turning, wheel and marks': { routine: 'even turning', source: 'travel and scan' },
  'degree by degree': { routine: 'degree by degree', source: 'travel' },
  'degree by degree, wheel and marks': { routine: 'degree by degree', source: 'travel and scan' },
  'following on the readout': { routine: 'following', source: 'travel', seesTilt: 'readout' },
  'following on a tilt sensor': { routine: 'following', source: 'travel', seesTilt: 'sensor' },
  'following on a tilt sensor, wheel and marks': {
    routine: 'following',
    source: 'travel and scan',
    seesTilt: 'sensor',
  },
};
