import { pointerHouse } from '../kit/pointerHouse.ts';
import type { PointerSeen } from '../kit/watchPointer.ts';

const WATCHED_MS = 7000;
const SIZES = { tablet: { width: 1280, height: 800 }, wall: { width: 1920, height: 1080 } } as const;
const CASES = [
  { mPerMin: 1, jitterMs: 100, size: 'tablet' },
  { mPerMin: 3, jitterMs: 100, size: 'tablet' },
  { mPerMin: 6, jitterMs: 0, size: 'tablet' },
  { mPerMin: 6, jitterMs: 100, size: 'tablet' },
  { mPerMin: 6, jitterMs: 100, size: 'wall' },
] as const;

/**
 * What stands on the wheel display (Chromium without a graphics card) against the tilt wanted for wood outside whose place is
 * known, frame by frame, while the display's line jitters; beside it a display that draws each guide as it comes.
 */
export async function pointer(): Promise<void> {
  for (const { mPerMin, jitterMs, size } of CASES) {
    const ends: (() => Promise<void> | void)[] = [];
    try {
      const house = await pointerHouse({ mPerMin, jitterMs, viewport: SIZES[size], atEnd: (end) => ends.unshift(end) });
      await house.page.waitForTimeout(WATCHED_MS);
      const seen = await house.seen();
      console.log(`${mPerMin} m/min, jitter ${jitterMs} ms, ${size}: ${seen.length} frames in ${WATCHED_MS / 1000} s`);
      const off = (degOf: (each: PointerSeen) => number): number[] =>
        seen.map((each) => Math.abs(degOf(each) - house.wantedDeg(each.drawnAtMs)));
      const old = ({ arrivedDeg }: PointerSeen): number => (arrivedDeg === null ? Number.NaN : house.shown(arrivedDeg));
      console.log(
        row(
          '  off, drawn by the server`s time',
          off(({ deg }) => deg),
          3,
          'deg',
        ),
      );
      console.log(row('  off, each guide drawn as it comes', off(old), 3, 'deg'));
      console.log(row('  from frame to frame, by the server`s time', steps(seen.map(({ deg }) => deg)), 3, 'deg'));
      console.log(row('  from frame to frame, as it comes', steps(seen.map(old)), 3, 'deg'));
      console.log(
        row(
          '  time between frames',
          seen.map(({ atMs, drawnAtMs }) => atMs - drawnAtMs),
          1,
          'ms',
        ),
      );
    } finally {
      for (const end of ends) await end();
    }
  }
}

const steps = (degs: readonly number[]): number[] =>
  degs.slice(1).map((deg, index) => Math.abs(deg - (degs[index] ?? deg)));

function row(what: string, values: readonly number[], places: number, unit: string): string {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number): string =>
    (sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? 0).toFixed(places);
  return `${what.padEnd(44)} p50 ${at(0.5)}   p95 ${at(0.95)}   p99 ${at(0.99)}   worst ${at(1)} ${unit}`;
}
