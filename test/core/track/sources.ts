/** What modelled sources say of wood whose truth is known, and how well a track follows them. */

import { assimilateInOrder } from '../../../server/core/track/outOfOrder.ts';
import { placeAt, type TrackedPlace } from '../../../server/core/track/placeAt.ts';
import { type Evidence, startTrack } from '../../../server/core/track/track.ts';
import { chance, type Truth } from './wood.ts';

export const SPACING_MM = 150;
/** Marks on the strip that these runs feed. */
const MARKS = 12;

export interface Look {
  readonly truth: Truth;
  readonly place: TrackedPlace;
  readonly offMm: number;
}

/** The track beside the truth, at every one of its moments. */
export function follow(truths: readonly Truth[], evidence: readonly Evidence[], usualMmPerMs: number): Look[] {
  let track = startTrack(usualMmPerMs);
  let next = 0;
  return truths.flatMap((truth) => {
    for (let each = evidence[next]; each !== undefined && each.atMs <= truth.atMs; each = evidence[next]) {
      track = assimilateInOrder(track, each).track;
      next += 1;
    }
    const place = placeAt(track, truth.atMs);
    return place === null ? [] : [{ truth, place, offMm: place.positionMm - truth.positionMm }];
  });
}

export const share = <T>(list: readonly T[], of: (each: T) => boolean): number => list.filter(of).length / list.length;
export const mean = (list: readonly number[]): number => list.reduce((sum, each) => sum + each, 0) / list.length;

/** 15 a second, 1 mm; some of them anywhere on the strip. */
export function camera(truths: readonly Truth[], seed: number, falseShare = 0): Evidence[] {
  const { next, normal } = chance(seed);
  const frame = (atMs: number): number => Math.floor((15 * atMs) / 1000);
  return truths
    .filter(({ atMs }, index) => index > 0 && frame(atMs) !== frame(truths[index - 1]?.atMs ?? 0))
    .map(({ atMs, positionMm }) => ({
      kind: 'fix',
      by: 'scan',
      atMs,
      positionMm: next() < falseShare ? MARKS * SPACING_MM * next() : positionMm + normal(),
    }));
}

/** When the wood was at a place, between two moments. */
function passedMs(truths: readonly Truth[], placeMm: number): number | null {
  const index = truths.findIndex(({ positionMm }) => positionMm >= placeMm);
  const [before, after] = [truths[index - 1], truths[index]];
  if (after === undefined) return null;
  if (before === undefined) return after.atMs;
  const part = (placeMm - before.positionMm) / (after.positionMm - before.positionMm);
  return before.atMs + part * (after.atMs - before.atMs);
}

const places = (truths: readonly Truth[]): number[] =>
  Array.from({ length: Math.ceil((truths.at(-1)?.positionMm ?? 0) / SPACING_MM) }, (_, mark) => mark * SPACING_MM);

const inOrder = (evidence: readonly Evidence[]): Evidence[] => [...evidence].sort((a, b) => a.atMs - b.atMs);

/** A wheel that slips, and marks read within a millimetre: 2 % of them missed, and 1 % with another mark's code after it. */
export function wheelAndMarks(truths: readonly Truth[], seed: number, slip: number): Evidence[] {
  const { next, normal } = chance(seed);
  const counts = truths
    .filter((_, index) => index % 2 === 0)
    .map(
      ({ atMs, positionMm }): Evidence => ({
        kind: 'count',
        atMs,
        mm: Math.round((4321 + (1 + slip) * positionMm + 0.1 * normal()) * 10) / 10,
      }),
    );
  const scans = places(truths).flatMap((placeMm): Evidence[] => {
    const atMs = passedMs(truths, placeMm);
    if (atMs === null) return [];
    const read: Evidence[] = next() < 0.02 ? [] : [{ kind: 'fix', by: 'scan', atMs, positionMm: placeMm + normal() }];
    const otherMm = SPACING_MM * Math.floor(MARKS * next());
    return next() < 0.01 ? [...read, { kind: 'fix', by: 'scan', atMs: atMs + 1, positionMm: otherMm }] : read;
  });
  return inOrder([...counts, ...scans]);
}

/** A foot with a person's timing, and what the person says of the pauses. Some marks are missed, some are pressed twice. */
export function pedal(
  truths: readonly Truth[],
  seed: number,
  pauses: readonly { fromMm: number; forMs: number }[],
  faults = 0,
): Evidence[] {
  const { next, normal } = chance(seed);
  const presses = places(truths).flatMap((positionMm): Evidence[] => {
    const passed = passedMs(truths, positionMm);
    if (passed === null || (positionMm > 0 && next() < faults)) return [];
    const atMs = Math.max(0, passed + 100 * normal());
    const press: Evidence = { kind: 'fix', by: 'press', atMs, positionMm };
    return next() < faults ? [press, { ...press, atMs: atMs + 200 }] : [press];
  });
  const told = pauses.flatMap(({ fromMm, forMs }): Evidence[] => {
    const atMs = passedMs(truths, fromMm) ?? 0;
    return [
      { kind: 'standing', atMs },
      { kind: 'moving', atMs: atMs + forMs },
    ];
  });
  return inOrder([...presses, ...told]);
}
