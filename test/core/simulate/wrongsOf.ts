import type { Simulated, SimulatedCall } from '../../../server/core/simulate/simulation.ts';

/**
 * What must never be in a simulated run. `late repeat`: a bevel that was called in time, and said again (behind a stop) with
 * its mark too near for the words.
 */
export type WrongKind =
  | 'late'
  | 'late repeat'
  | 'wrong figure'
  | 'wrong mark'
  | 'overlap'
  | 'passed over'
  | 'never finished';
export interface Wrong {
  readonly kind: WrongKind;
  readonly what: string;
}

/** A foot may be this early. */
const EARLY_MS = 400;

/** `callDegs`: what the plan calls at each mark. */
export function wrongsOf(callDegs: ReadonlyMap<number, number>, run: Simulated): readonly Wrong[] {
  const wrongs = run.calls.flatMap((call, index) => wrongsOfCall(callDegs, run, call, index));
  const accounted = new Set([...run.calls, ...run.missed].map(({ mark }) => mark));
  for (const { mark, atMs } of run.arrivals)
    if (atMs !== null && !accounted.has(mark))
      wrongs.push({ kind: 'passed over', what: `mark ${mark} was neither called nor recorded as missed` });
  if (!run.isFinished)
    wrongs.push({ kind: 'never finished', what: 'the last mark was at the blade and was not noticed' });
  return wrongs;
}

function wrongsOfCall(
  callDegs: ReadonlyMap<number, number>,
  run: Simulated,
  call: SimulatedCall,
  index: number,
): readonly Wrong[] {
  const name = `call ${index + 1}, "${call.text}"${call.mark === null ? '' : ` for mark ${call.mark}`},`;
  const wrongs: Wrong[] = [];
  const next = run.calls[index + 1];
  if (next !== undefined && call.endsAtMs > next.startsAtMs)
    wrongs.push({ kind: 'overlap', what: `${name} is not over when the next one starts` });
  if (call.mark === null) return wrongs;
  const wanted = callDegs.get(call.mark);
  if (call.deg !== wanted) wrongs.push({ kind: 'wrong figure', what: `${name} names ${call.deg}, wanted ${wanted}` });
  const isRepeat = run.calls.slice(0, index).some(({ mark, isCutOff }) => mark === call.mark && !isCutOff);
  if (call.marginMs !== null && call.marginMs < 0 && !call.isCutOff)
    wrongs.push({
      kind: isRepeat ? 'late repeat' : 'late',
      what: `${name} is over ${Math.ceil(-call.marginMs)} ms after its mark`,
    });
  const ahead = aheadOf(run, call);
  if (ahead < 0 && !isRepeat) wrongs.push({ kind: 'wrong mark', what: `${name} begins when its mark has passed` });
  if (ahead > 1) wrongs.push({ kind: 'wrong mark', what: `${name} is for the ${ahead + 1}th mark ahead` });
  return wrongs;
}

/** How many marks lie between the wood and the mark that is called, those left out that were recorded as missed; -1: it has passed. */
function aheadOf(run: Simulated, { mark: called, startsAtMs }: SimulatedCall): number {
  const missed = new Set(run.missed.map(({ mark }) => mark));
  const index = run.arrivals.findIndex(({ mark }) => mark === called);
  const own = run.arrivals[index]?.atMs ?? Number.POSITIVE_INFINITY;
  if (own <= startsAtMs) return -1;
  return run.arrivals
    .slice(0, index)
    .filter(({ mark, atMs }) => !missed.has(mark) && (atMs ?? Number.POSITIVE_INFINITY) > startsAtMs + EARLY_MS).length;
}
