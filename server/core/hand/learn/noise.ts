/** How far the readings of a tilt sensor scatter, and what a silent one has said by its silence. */
import { median, sdByMedian } from '../../numeric/median.ts';
import type { TiltReading } from './handRecord.ts';

/** Finer than any sensor on a saw, so that nothing is divided by nothing. */
const LEAST_DEG = 0.01;
/** So many of the last readings tell what a sensor is like. */
const ENOUGH = 20_000;

/**
 * Standard deviation of a reading's own error, in degrees. Second differences fall away where the wheel stands and where it
 * turns evenly; of readings in steps (a sensor to a tenth) most are equal, and the error is then that of the step.
 */
export function noiseDeg(all: readonly TiltReading[]): number {
  const tilts = all.slice(-ENOUGH);
  const bends = tilts.slice(2).map(({ deg }, i) => {
    const [first, middle] = [tilts[i], tilts[i + 1]];
    return first === undefined || middle === undefined ? 0 : Math.abs(deg - 2 * middle.deg + first.deg);
  });
  const steps = tilts.slice(1).map(({ deg }, i) => Math.abs(deg - (tilts[i]?.deg ?? deg)));
  const leastStep = steps.reduce(
    (least, step) => (step > 1e-9 && step < least ? step : least),
    Number.POSITIVE_INFINITY,
  );
  const ofStep = Number.isFinite(leastStep) ? leastStep / Math.sqrt(12) : 0;
  const ofBends = bends.length === 0 ? 0 : sdByMedian(bends) / Math.sqrt(6);
  return Math.max(LEAST_DEG, ofStep, ofBends);
}

/** Readings that lie closer than this make up a source's own beat. */
const BEAT_MS = 300;
/** A wheel that stood through a silence is found so near its last reading by the next one (a beat of quick turning). */
const STOOD_DEG = 0.25;

/**
 * Some sources speak only when the tilt has changed: what such a one said last held until a beat before its next word. That
 * reading is put in, so that the silence is not taken for a slow turn.
 */
export function withSilences(tilts: readonly TiltReading[]): readonly TiltReading[] {
  const lately = tilts.slice(-ENOUGH);
  const gaps = lately.slice(1).map(({ atMs }, i) => atMs - (lately[i]?.atMs ?? atMs));
  const beats = gaps.filter((gap) => gap <= BEAT_MS);
  if (beats.length === 0) return tilts;
  const beatMs = Math.max(1, median(beats));
  return tilts.flatMap((reading, i) => {
    const before = tilts[i - 1];
    if (before === undefined || reading.atMs - before.atMs <= 2 * beatMs) return [reading];
    if (Math.abs(reading.deg - before.deg) > STOOD_DEG) return [reading];
    return [{ atMs: reading.atMs - beatMs, deg: before.deg }, reading];
  });
}
