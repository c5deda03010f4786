import { expect } from 'vitest';
import type { Call, RunEffect } from '../../server/core/run/events.ts';
import type { RunSetup } from '../../server/core/run/state.ts';

/** Holds what a run said against the plan: never two at once, ids rising, no bevel but the mark's own, no phrase unknown. */
export function makesSense(setup: RunSetup, effects: readonly RunEffect[]): void {
  let speaking: Call | null = null;
  let count = 0;
  for (const effect of effects) {
    if (effect.kind === 'cut-off') {
      expect(effect.id).toBe(speaking?.id);
      speaking = null;
    }
    if (effect.kind !== 'say') continue;
    const { call } = effect;
    count += 1;
    expect(call.id).toBe(`c${count}`);
    if (speaking !== null) expect(speaking.startsAtMs + speaking.durationMs).toBeLessThanOrEqual(call.startsAtMs);
    expect(setup.durationsMs[call.text]).toBe(call.durationMs);
    const station = setup.stations.find(({ mark }) => mark === call.mark);
    if (call.mark !== undefined) expect(call.deg).toBe(station?.callDeg);
    speaking = call;
  }
}
