import type { Simulated, SimulatedCall, Simulation } from '../../../server/core/simulate/simulation.ts';
import type { Wanted } from './wanted.ts';
import type { Wrong } from './wrong.ts';
import { wrongsOfFigures } from './wrongsOfFigures.ts';

/** A foot may be this early. */
const EARLY_MS = 400;
/** On the pedal a mark is at the blade when the foot says so, and a foot may be so late (three standard deviations). */
const FOOT_LATE_MS = 300;
/** A reader reads a mark up to a millimetre or two behind its line. */
const READ_LATE_MS = 60;
/** Wood that stands so near its mark has it at the blade: a wheel with marks is good to 5 mm, one alone by its slip besides. */
const NEAR_MM = 5;
const SLIP = 0.005;

/** `mPerMin`: the feed. With `isByDegrees` figures are called as they come due, not marks. */
export function wrongsOf(
  wanted: Wanted,
  run: Simulated,
  {
    mPerMin,
    isByDegrees = false,
    source,
  }: { readonly mPerMin: number; readonly isByDegrees?: boolean; readonly source: Simulation['source'] },
): readonly Wrong[] {
  const wrongs = run.calls.flatMap((call, index) => [
    ...overlapOf(run, call, index),
    ...(call.mark === null ? [] : wrongsOfMark(wanted, run, call, call.mark, index, { source, isByDegrees })),
  ]);
  wrongs.push(...(isByDegrees ? wrongsOfFigures(wanted, run, mPerMin / 60) : passedOver(run)));
  // The last mark's code was not read: then the sawyer ends the run.
  if (!run.isFinished && source !== 'scan')
    wrongs.push({ kind: 'never finished', what: 'the last mark was at the blade and was not noticed' });
  return wrongs;
}

function passedOver(run: Simulated): readonly Wrong[] {
  const accounted = new Set([...run.calls, ...run.missed].map(({ mark }) => mark));
  return run.arrivals
    .filter(({ mark, atMs }) => atMs !== null && !accounted.has(mark))
    .map(({ mark }) => ({ kind: 'passed over', what: `mark ${mark} was neither called nor recorded as missed` }));
}

export const nameOf = ({ text, mark }: SimulatedCall, index: number): string =>
  `call ${index + 1}, "${text}"${mark === null ? '' : ` for mark ${mark}`},`;

function overlapOf(run: Simulated, call: SimulatedCall, index: number): readonly Wrong[] {
  const next = run.calls[index + 1];
  return next !== undefined && call.endsAtMs > next.startsAtMs
    ? [{ kind: 'overlap', what: `${nameOf(call, index)} is not over when the next one starts` }]
    : [];
}

function wrongsOfMark(
  { callDegs, placesMm }: Wanted,
  run: Simulated,
  call: SimulatedCall,
  mark: number,
  index: number,
  { source, isByDegrees }: { readonly source: Simulation['source']; readonly isByDegrees: boolean },
): readonly Wrong[] {
  const name = nameOf(call, index);
  const wrongs: Wrong[] = [];
  const wanted = callDegs.get(mark);
  if (call.deg !== wanted) wrongs.push({ kind: 'wrong figure', what: `${name} names ${call.deg}, wanted ${wanted}` });
  const isAgain = run.calls.slice(0, index).filter((before) => before.mark === mark);
  const isRepeat = isAgain.some(({ isCutOff }) => !isCutOff) || (isAgain.length > 0 && isAfterLost(run, call));
  const placeMm = placesMm.get(mark) ?? 0;
  const isNear = call.endsAtMm <= placeMm + NEAR_MM + SLIP * placeMm;
  // Said again behind a stop it is not late where it is right for the wood at the blade: degree by degree its figure is looked
  // at; where only scanned marks tell the place, nobody knows it but the sawyer.
  const isForgiven = isRepeat && (isNear || isByDegrees || source === 'scan' || isAfterLost(run, call));
  const graceMs = source === 'press' ? FOOT_LATE_MS : source === 'scan' ? READ_LATE_MS : 0;
  if (call.marginMs !== null && call.marginMs < -graceMs && !call.isCutOff && !isForgiven)
    wrongs.push({
      kind: isRepeat ? 'late repeat' : 'late',
      what: `${name} is over ${Math.ceil(-call.marginMs)} ms after its mark`,
    });
  const ahead = aheadOf(run, call);
  if (ahead < 0 && !isRepeat) wrongs.push({ kind: 'wrong mark', what: `${name} begins when its mark has passed` });
  if (ahead > 1 && !isGuessed(run, call))
    wrongs.push({ kind: 'wrong mark', what: `${name} is for the ${ahead + 1}th mark ahead` });
  return wrongs;
}

/** Behind a lost signal the last bevel is said again: where the wood is, nobody knows but the sawyer. */
const isAfterLost = ({ told }: Simulated, { startsAtMs }: SimulatedCall): boolean =>
  told.findLast(({ atMs }) => atMs <= startsAtMs)?.code === 'signal-lost';

/** Where a mark that was not read is taken to have passed, that is told; the wood may be standing. */
const isGuessed = ({ told }: Simulated, { startsAtMs }: SimulatedCall): boolean =>
  told.findLast(({ atMs }) => atMs <= startsAtMs)?.code === 'mark-guessed';

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
