/**
 * When a sound must be given to the audio graph so that it leaves the device at `localMs` (`performance.now()`). The output
 * stamp says which sample is leaving the device at which moment, so the device's own delay is in it where the browser knows it.
 */
export function audioTimeS(context: AudioContext, localMs: number): number {
  const { graphS, leavesMs } = leavingNow(context);
  return Math.max(graphS + (localMs - leavesMs) / 1000, context.currentTime);
}

/** When a sound that the graph plays at `atS` leaves the device, as far as the browser knows (`performance.now()`). */
export function leavesAtMs(context: AudioContext, atS: number): number {
  const { graphS, leavesMs } = leavingNow(context);
  return leavesMs + 1000 * (atS - graphS);
}

/** A moment of the graph, and when it leaves the device. */
function leavingNow(context: AudioContext): { readonly graphS: number; readonly leavesMs: number } {
  const { performanceTime = 0, contextTime = 0 } = context.getOutputTimestamp();
  return performanceTime > 0 && contextTime > 0
    ? { graphS: contextTime, leavesMs: performanceTime }
    : { graphS: context.currentTime, leavesMs: performance.now() + 1000 * (context.outputLatency || 0) };
}
