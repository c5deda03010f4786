import type { RunState } from './state.ts';

/**
 * The state with what nearly every reading changes. Field by field: copying by `...` takes twenty times as long, and readings
 * come some thousands to a run, of which `simulate` goes through thousands.
 */
export function changed(
  state: RunState,
  {
    reckoning = state.reckoning,
    tilt = state.tilt,
    wakeAtMs = state.wakeAtMs,
  }: Partial<Pick<RunState, 'reckoning' | 'tilt' | 'wakeAtMs'>>,
): RunState {
  return {
    setup: state.setup,
    phase: state.phase,
    reached: state.reached,
    turningTo: state.turningTo,
    heard: state.heard,
    givenUp: state.givenUp,
    step: state.step,
    stepByMm: state.stepByMm,
    reckoning,
    isPlaceKnown: state.isPlaceKnown,
    lastPress: state.lastPress,
    scannedMark: state.scannedMark,
    guessed: state.guessed,
    earned: state.earned,
    speaking: state.speaking,
    order: state.order,
    calls: state.calls,
    notice: state.notice,
    ranOn: state.ranOn,
    tilt,
    hears: state.hears,
    relies: state.relies,
    isWithoutSound: state.isWithoutSound,
    lost: state.lost,
    hearsAfterMs: state.hearsAfterMs,
    easedAtMs: state.easedAtMs,
    wakeAtMs,
  };
}
