/** What the sources say of the wood: readings with their own errors, at their own moments. */

import type { Draws } from '../numeric/draws.ts';
import { rowAt } from '../rowAt.ts';
import type { RunEvent } from '../run/engine/events.ts';
import type { Station } from '../run/engine/state.ts';
import { mPerMinToMmPerMs } from '../units.ts';
import type { Simulation, SourceFaults } from './simulation.ts';

const COUNT_EVERY_MS = 40;
const TILT_EVERY_MS = 40;
/** Another code in view is read so long after the right one (assumption). */
const FALSE_AFTER_MS = 300;

/** The wood over one short span of time. */
export interface Span {
  readonly fromMs: number;
  readonly toMs: number;
  readonly fromMm: number;
  readonly toMm: number;
}

/** When the wood was at a place within a span; null if it did not pass it, in the direction asked for. */
export function passedAt({ fromMs, toMs, fromMm, toMm }: Span, placeMm: number, isBackward = false): number | null {
  const isPassed = isBackward ? fromMm >= placeMm && toMm < placeMm : fromMm < placeMm && toMm >= placeMm;
  return isPassed ? fromMs + ((placeMm - fromMm) / (toMm - fromMm)) * (toMs - fromMs) : null;
}

interface Now {
  readonly tiltDeg: number;
  readonly isFeeding: boolean;
}
/** What one source says within a span, the tilt and the run being so, in the order of time. */
type Source = (span: Span, now: Now) => readonly RunEvent[];

/** The sources of one run together; what they say comes in the order of time. */
export function openSources(simulation: Simulation, faults: SourceFaults, draw: Draws): Source {
  const { source, seesTilt, setup, mPerMin } = simulation;
  const parts: Source[] = [];
  if (source === 'press') parts.push(presses(setup.stations, faults, mPerMinToMmPerMs(mPerMin), draw));
  // Without a count nothing can tell a false code from a true one, so a lone reader is taken to read none.
  if (source === 'scan') parts.push(scans(setup.stations, { ...faults, falseScans: 0 }, draw));
  if (source === 'travel and scan') parts.push(scans(setup.stations, faults, draw));
  if (source === 'travel' || source === 'travel and scan') parts.push(counts(faults, draw));
  if (seesTilt === 'sensor') parts.push(tilts(faults, draw));
  const [only, ...others] = parts;
  if (only === undefined) return () => NOTHING;
  return others.length === 0 ? only : (span, now) => saidByAll(parts, span, now);
}

const NOTHING: readonly RunEvent[] = [];

function saidByAll(parts: readonly Source[], span: Span, now: Now): readonly RunEvent[] {
  let all = NOTHING;
  for (const part of parts) {
    const said = part(span, now);
    if (said.length > 0) all = all.length === 0 ? said : [...all, ...said];
  }
  return all.length > 1 ? all.toSorted((a, b) => a.atMs - b.atMs) : all;
}

/** Where the wood lies when a person takes each mark to be at the blade: the error in time, at the feed that is usual. */
export function seenAtMm(
  stations: readonly Station[],
  { footSdMs }: SourceFaults,
  mmPerMs: number,
  draw: Draws,
): readonly number[] {
  let lastMm = Number.NEGATIVE_INFINITY;
  return stations.map(({ positionMm }, index) => {
    const offMm = footSdMs * mmPerMs * draw.normal();
    // The first mark waits at the blade: nobody is early there. And nobody takes two marks for one.
    lastMm = Math.max(lastMm + 1, positionMm + (index === 0 ? Math.abs(offMm) : offMm));
    return lastMm;
  });
}

function presses(stations: readonly Station[], faults: SourceFaults, mmPerMs: number, draw: Draws): Source {
  const places = seenAtMm(stations, faults, mmPerMs, draw);
  let next = 0;
  return (span, { isFeeding }) => {
    // A mark that ran past while the run stood is pressed for when it goes on: in a stopped run a press is refused.
    const place = places[next];
    if (!isFeeding || place === undefined || span.toMm < place) return NOTHING;
    next += 1;
    return [{ kind: 'pressed', gesture: 'next', atMs: passedAt(span, place) ?? span.toMs }];
  };
}

/** A reader at the blade reads a mark whenever it passes, forward or back, and says that it is there. */
function scans(stations: readonly Station[], faults: SourceFaults, draw: Draws): Source {
  const places = stations.map(({ positionMm }) => positionMm + Math.abs(faults.scanSdMm * draw.normal()));
  let later: RunEvent[] = [];
  let near = 0;
  return (span) => {
    while ((places[near] ?? Number.POSITIVE_INFINITY) < span.toMm) near += 1;
    while (near > 0 && rowAt(places, near - 1) > span.toMm) near -= 1;
    if (later.length === 0 && !isPassed(span, places, near)) return NOTHING;
    const said = later.filter(({ atMs }) => atMs < span.toMs);
    later = later.filter(({ atMs }) => atMs >= span.toMs);
    for (let index = Math.max(0, near - 2); index < near + 2; index += 1) {
      const place = places[index];
      const atMs = place === undefined ? null : (passedAt(span, place) ?? passedAt(span, place, true));
      const chance = atMs === null ? 0 : draw.even();
      if (atMs === null || chance < faults.missedScans) continue;
      said.push({ kind: 'scanned', mark: rowAt(stations, index).mark, offsetMm: 0, atMs });
      const other = stations[Math.floor(draw.even() * stations.length)];
      if (other !== undefined && chance > 1 - faults.falseScans)
        later.push({ kind: 'scanned', mark: other.mark, offsetMm: 0, atMs: atMs + FALSE_AFTER_MS });
    }
    return said.sort((a, b) => a.atMs - b.atMs);
  };
}

/** One of the two places before or behind `near` lies within the span. */
function isPassed({ fromMm, toMm }: Span, places: readonly number[], near: number): boolean {
  for (let index = Math.max(0, near - 2); index < near + 2; index += 1) {
    const place = places[index] ?? Number.POSITIVE_INFINITY;
    if ((fromMm < place && toMm >= place) || (fromMm >= place && toMm < place)) return true;
  }
  return false;
}

function counts({ slip, countSdMm }: SourceFaults, draw: Draws): Source {
  const scale = 1 + slip * (2 * draw.even() - 1);
  let nextMs = Number.NEGATIVE_INFINITY;
  return ({ toMs, toMm }) => {
    if (toMs < nextMs) return NOTHING;
    nextMs = toMs + COUNT_EVERY_MS;
    return [{ kind: 'moved', atMs: toMs, mm: Math.round((toMm * scale + countSdMm * draw.normal()) * 10) / 10 }];
  };
}

function tilts({ tiltOffsetDeg, tiltSdDeg }: SourceFaults, draw: Draws): Source {
  const offsetDeg = tiltOffsetDeg * draw.normal();
  let nextMs = Number.NEGATIVE_INFINITY;
  return ({ toMs }, { tiltDeg }) => {
    if (toMs < nextMs) return NOTHING;
    nextMs = toMs + TILT_EVERY_MS;
    return [{ kind: 'tilted', atMs: toMs, deg: tiltDeg + offsetDeg + tiltSdDeg * draw.normal() }];
  };
}
