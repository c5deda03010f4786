import type { RunSetup, RunState } from './state.ts';

/** A run that has been made and not started. */
export function initialState(setup: RunSetup): RunState {
  if (setup.stations.length < 2) throw new Error(`a run has at least two marks, found ${setup.stations.length}`);
  return {
    setup,
    phase: 'ready',
    reached: 0,
    turningTo: -1,
    heard: -1,
    givenUp: -1,
    step: -1,
    stepByMm: null,
    reckoning: null,
    isPlaceKnown: true,
    lastPress: null,
    scannedMark: null,
    guessed: 0,
    earned: null,
    speaking: null,
    order: null,
    calls: 0,
    notice: null,
    ranOn: null,
    tilt: null,
    hears: 'nobody',
    relies: 'nobody',
    isWithoutSound: false,
    lost: null,
    hearsAfterMs: 0,
    easedAtMs: null,
    wakeAtMs: null,
  };
}
