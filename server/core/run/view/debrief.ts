import type { RunEvent } from '../engine/events.ts';
import { initialState } from '../engine/initialState.ts';
import { tiltAt } from '../engine/profile.ts';
import type { RunSetup, RunState } from '../engine/state.ts';
import { step } from '../step.ts';
import { guideAt } from './guide.ts';

/** What a run tells afterwards: when each mark came, when it was called, and how far off the tilt was along the frame. */
export interface Debrief {
  /** True where a tilt source spoke, so that errors are known. */
  readonly measured: boolean;
  /** In the order of the run. */
  readonly marks: readonly DebriefedMark[];
  /** Tilt against position while feeding, in the order of time; only with a continuous position and where both were told. */
  readonly trace: readonly TracePoint[];
  readonly rmsErrorDeg: number | null;
  readonly worst: { readonly positionMm: number; readonly errorDeg: number } | null;
}
interface DebriefedMark {
  readonly mark: number;
  readonly positionMm: number;
  readonly wantedDeg: number;
  /** Tilt when the mark was at the blade; null where nothing told it then, or nobody was being guided. */
  readonly hadDeg: number | null;
  readonly reachedAtMs: number | null;
  readonly calledAtMs: number | null;
}
interface TracePoint {
  readonly positionMm: number;
  readonly wantedDeg: number;
  readonly hadDeg: number;
  /** True for the first one after a signal was lost: of the stock before it nothing is known. */
  readonly isAfterLoss?: true;
}

/** Goes through the events again. Errors are had minus wanted, in degrees; the rms is taken over the length of the stock. */
export function debriefOf(setup: RunSetup, events: Iterable<RunEvent>): Debrief {
  const steps = debriefing(setup, events);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The same, event by event, for whoever has other work between them. */
export function* debriefing(setup: RunSetup, events: Iterable<RunEvent>): Generator<void, Debrief> {
  let state = initialState(setup);
  let trace: Told[] = [];
  let isAfterLoss = false;
  const marks: DebriefedMark[] = setup.stations.map(({ mark, positionMm, tiltDeg }) => ({
    mark,
    positionMm,
    wantedDeg: tiltDeg,
    hadDeg: null,
    reachedAtMs: null,
    calledAtMs: null,
  }));
  for (const event of events) {
    const [next, effects] = step(state, event);
    for (const effect of effects) if (effect.kind === 'say') noteCall(marks, effect.call.mark, effect.call.startsAtMs);
    noteReached(marks, state, next, event.atMs);
    if (state.phase === 'feeding' && next.phase === 'lost') {
      const sinceMs = lastToldAtMs(state);
      trace = trace.filter(({ atMs }) => atMs <= sinceMs);
      forgetTiltsSince(marks, sinceMs);
      isAfterLoss = trace.length > 0;
    }
    const point = tracePoint(next, event);
    if (point !== null) {
      trace.push({ atMs: event.atMs, point: isAfterLoss ? { ...point, isAfterLoss } : point });
      isAfterLoss = false;
    }
    state = next;
    yield;
  }
  const points = trace.map(({ point }) => point);
  return { measured: state.tilt !== null, marks, trace: points, ...errorsOf(points) };
}

interface Told {
  readonly atMs: number;
  readonly point: TracePoint;
}

/**
 * A loss is noticed a while after the last that was told: between the two nobody was guided, and what the tilt was then is
 * held against nobody.
 */
const lastToldAtMs = ({ reckoning, tilt }: RunState): number =>
  Math.min(reckoning?.travel?.heardAtMs ?? Number.POSITIVE_INFINITY, tilt?.atMs ?? Number.POSITIVE_INFINITY);

function forgetTiltsSince(marks: DebriefedMark[], sinceMs: number): void {
  for (const [index, entry] of marks.entries())
    if (entry.reachedAtMs !== null && entry.reachedAtMs > sinceMs) marks[index] = { ...entry, hadDeg: null };
}

function noteCall(marks: DebriefedMark[], mark: number | undefined, atMs: number): void {
  const index = marks.findIndex((entry) => entry.mark === mark);
  const entry = marks[index];
  if (entry !== undefined && entry.calledAtMs === null) marks[index] = { ...entry, calledAtMs: atMs };
}

/** A press taken back clears what it had noted; the mark is noted again when it really comes. */
function noteReached(marks: DebriefedMark[], before: RunState, after: RunState, atMs: number): void {
  const hadDeg = before.phase === 'lost' ? null : (after.tilt?.deg ?? null);
  for (let index = before.reached; index < after.reached; index += 1) {
    const entry = marks[index];
    if (entry !== undefined) marks[index] = { ...entry, reachedAtMs: atMs, hadDeg };
  }
  for (let index = after.reached; index < before.reached; index += 1) {
    const entry = marks[index];
    if (entry !== undefined) marks[index] = { ...entry, reachedAtMs: null, hadDeg: null };
  }
}

function tracePoint(state: RunState, event: RunEvent): TracePoint | null {
  if (event.kind !== 'moved' && event.kind !== 'tilted') return null;
  // A source that tells only of changes is silent while the tilt stands.
  const hadDeg = state.tilt?.deg ?? null;
  if (state.phase !== 'feeding' || hadDeg === null || state.reckoning?.by !== 'travel') return null;
  const { positionMm } = guideAt(state, event.atMs);
  return positionMm === null ? null : { positionMm, wantedDeg: tiltAt(state.setup, positionMm), hadDeg };
}

/**
 * Each point stands for the stock up to the next one, so that a source that speaks often does not weigh more; but none for the
 * stock that went by while the signal was lost.
 */
function errorsOf(trace: readonly TracePoint[]): Pick<Debrief, 'rmsErrorDeg' | 'worst'> {
  let squares = 0;
  let lengthMm = 0;
  let worst: Debrief['worst'] = null;
  for (const [index, point] of trace.entries()) {
    const errorDeg = point.hadDeg - point.wantedDeg;
    if (worst === null || Math.abs(errorDeg) > Math.abs(worst.errorDeg))
      worst = { positionMm: point.positionMm, errorDeg };
    const next = trace[index + 1];
    const share = next === undefined || next.isAfterLoss ? 0 : Math.max(0, next.positionMm - point.positionMm);
    squares += errorDeg * errorDeg * share;
    lengthMm += share;
  }
  return { rmsErrorDeg: lengthMm > 0 ? Math.sqrt(squares / lengthMm) : null, worst };
}

/** The trace in the stretches between losses, each by its place along the stock: what is drawn as one line. */
export function stretchesOf(trace: readonly TracePoint[]): readonly (readonly TracePoint[])[] {
  const stretches: TracePoint[][] = [];
  for (const point of trace)
    if (stretches.length === 0 || point.isAfterLoss) stretches.push([point]);
    else stretches.at(-1)?.push(point);
  return stretches.map((stretch) => stretch.sort((a, b) => a.positionMm - b.positionMm));
}
