/**
 * When a sound must be given to the audio graph so that it leaves the device at `localMs` (`performance.now()`). The output
 * stamp says which sample is leaving the device at which moment, so the device's own delay is in it where the browser knows it.
 */
export function audioTimeS(context: AudioContext, localMs: number): number {
  const stamp = context.getOutputTimestamp();
  const known = (stamp.performanceTime ?? 0) > 0 && (stamp.contextTime ?? 0) > 0;
  const dueS = known
    ? (stamp.contextTime ?? 0) + (localMs - (stamp.performanceTime ?? 0)) / 1000
    : context.currentTime + (localMs - performance.now()) / 1000 - (context.outputLatency || 0);
  return Math.max(dueS, context.currentTime);
}
