import type { Plan } from '../../server/core/plan.ts';
import type { Simulated } from '../../server/core/simulate/simulateRun.ts';

/** Everything in a simulated run that must never be: a late call, a wrong number, two at once, a mark passed over in silence. */
export function faultsOf(plan: Plan, { calls, missed }: Simulated): readonly string[] {
  const faults: string[] = [];
  for (const [index, call] of calls.entries()) {
    const wanted = plan.marks.find(({ mark }) => mark === call.mark)?.callDeg;
    const name = `call ${index + 1}${call.mark === null ? '' : ` for mark ${call.mark}`}`;
    if (call.mark !== null && call.deg !== wanted) faults.push(`${name} names ${call.deg}, wanted ${wanted}`);
    const next = calls[index + 1];
    if (next !== undefined && call.endsAtMs > next.startsAtMs) faults.push(`${name} overlaps the one after it`);
    // A call that is repeated because a person resumed or asked again was in time when it was first given.
    const isFirst = !calls.slice(0, index).some((earlier) => earlier.mark === call.mark);
    if (isFirst && call.arrivedAtMs !== null && call.endsAtMs > call.arrivedAtMs && !call.isCutOff)
      faults.push(`${name} is over ${Math.round(call.endsAtMs - call.arrivedAtMs)} ms after its mark`);
  }
  for (const { mark } of plan.marks)
    if (!calls.some((call) => call.mark === mark) && !missed.some((each) => each.mark === mark))
      faults.push(`mark ${mark} was neither called nor recorded as missed`);
  return faults;
}
