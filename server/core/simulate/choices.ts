import type { Routine } from '../run/state.ts';
import type { Simulation } from './simulateRun.ts';

/** What can be simulated, in plain words: a routine, and what tells where the stock is. */
export interface SimulatedChoice {
  readonly routine: Routine;
  readonly source: Simulation['source'];
  readonly seesTilt?: 'readout' | 'sensor';
}

export const CHOICES: Readonly<Record<string, SimulatedChoice>> = {
  'shop routine': { routine: 'mark by mark', source: 'shop' },
  'mark by mark on the pedal': { routine: 'mark by mark', source: 'press' },
  'mark by mark on scanned marks': { routine: 'mark by mark', source: 'scan' },
  'mark by mark on a measuring wheel': { routine: 'mark by mark', source: 'travel' },
  'even turning': { routine: 'even turning', source: 'travel' },
  'following on the readout': { routine: 'following', source: 'travel', seesTilt: 'readout' },
  'following on a tilt sensor': { routine: 'following', source: 'travel', seesTilt: 'sensor' },
};
