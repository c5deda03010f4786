import { expect } from 'vitest';
import type { Call, RunEffect } from '../../server/core/run/engine/events.ts';
import type { RunSetup } from '../../server/core/run/engine/state.ts';

/** Holds what a run said against the plan: never two at once, ids rising, no bevel but the mark's own, no phrase unknown. */
export function makesSense(setup: RunSetup, effects: readonly RunEffect[]): void {
  /** The last call, and before it an order whose end it may have to wait for. */
  let speaking: Call[] = [];
  let count = 0;
  for (const effect of effects) {
    if (effect.kind === 'cut-off') {
      expect(speaking.map(({ id }) => id)).toContain(effect.id);
      speaking = speaking.filter(({ id }) => id !== effect.id);
    }
    if (effect.kind !== 'say') continue;
    const { call } = effect;
    count += 1;
    expect(call.id).toBe(`c${count}`);
    for (const { startsAtMs, durationMs } of speaking)
      expect(startsAtMs + durationMs).toBeLessThanOrEqual(call.startsAtMs);
    expect(setup.durationsMs[call.text]).toBe(call.durationMs);
    const station = setup.stations.find(({ mark }) => mark === call.mark);
    if (call.mark !== undefined) expect(call.deg).toBe(station?.callDeg);
    speaking = [...speaking.slice(-1).filter(({ deg }) => deg === undefined), call];
  }
}
