import { hullFrame } from '../../../server/core/frame/hullFrame.ts';
import { wholeBoat } from '../../../server/core/frame/wholeBoat.ts';
import { fairHull } from '../../../server/core/hull/fairHull.ts';
import { slipsIn } from '../../../server/core/hull/slips.ts';
import { hullSurface } from '../../../server/core/hull/surface.ts';
import type { FromOffsets } from '../../../server/core/job.ts';
import { chance } from '../../core/frame/fairFrames.ts';
import { offsetsOf, randomHull } from '../../core/hull/analyticHull.ts';
import { aJob } from '../../kit/aJob.ts';
import { evenly } from '../../kit/offsetTable.ts';
import { spread } from '../spread.ts';
import { frameByMatrices, NODES, surfaceByMatrices } from './byMatrices.ts';

const [HULLS, FRAMES, SIDING_MM] = [10, 60, 50];

/**
 * Bevels from tables of 21 stations of 15 points: how long a surface, a frame and a boat of 60 frames take, beside the same sums done with
 * a general numeric library (ml-matrix: splines as dense systems, lofts as products), and how far the two stand apart.
 */
export async function offsets(): Promise<void> {
  const times = {
    ours: [] as number[][],
    library: [] as number[][],
    boat: [] as number[],
    boatCpu: [] as number[],
    look: [] as number[],
  };
  let apartDeg = 0;
  for (let n = -2; n < HULLS; n++) {
    const hull = randomHull(chance(60 + n));
    const { lengthMm } = hull.traits;
    const table = offsetsOf(hull, 21, 15, 1);
    const places = evenly(0.1 * lengthMm, 0.9 * lengthMm, FRAMES);
    const ours = both(
      () => hullSurface(table),
      (surface, atMm) =>
        hullFrame(surface, { atMm, cantDeg: 0, plankingMm: 0, sidingMm: SIDING_MM, mouldedFace: 'forward' }),
      places,
    );
    const library = both(
      () => surfaceByMatrices(table),
      (surface, atMm) => frameByMatrices(surface, atMm, SIDING_MM),
      places,
    );
    ours.frames.forEach((frame, i) => {
      library.frames[i]?.forEach(({ bevelDeg, sawnDeg }, k) => {
        const found = frame?.at((frame.girthMm * k) / (NODES - 1));
        // Nodes are even on the stations and nearly so between them: compared where both lie on a station.
        if (found !== undefined && isOnStation(places[i] ?? 0, lengthMm))
          apartDeg = Math.max(apartDeg, Math.abs(found.bevelDeg - bevelDeg), Math.abs(found.sawnDeg - sawnDeg));
      });
    });
    const shape: FromOffsets = {
      ...{ kind: 'offsets', file: 'offsets.csv', table, atMm: places[0] ?? 0, cantDeg: 0, plankingMm: 0 },
      ...{ isAsDrawn: false, framesMm: places },
    };
    const job = aJob({ shape, marks: { kind: 'spacing', spacingMm: 50 } });
    const boat = timed(() => wholeBoat(job, shape, places, 'frames'));
    const lookMs = timed(() => [slipsIn(table), fairHull(table)]).ms;
    // The first rounds only warm up.
    if (n < 0) continue;
    times.ours.push(ours.times);
    times.library.push(library.times);
    times.boat.push(boat.ms);
    times.boatCpu.push(boat.cpuMs);
    times.look.push(lookMs);
  }
  const of = (rows: readonly number[][], from: number, to?: number): number[] =>
    rows.flatMap((row) => row.slice(from, to));
  console.log(spread('surface, ours', of(times.ours, 0, 1)));
  console.log(spread('surface, by matrices', of(times.library, 0, 1)));
  console.log(spread('one frame, ours (edge, tangent, chord, hollow)', of(times.ours, 1)));
  console.log(spread('one frame, by matrices (tangent and chord only)', of(times.library, 1)));
  console.log(spread(`${FRAMES} frames at 50 mm marks, ours, with slips and fairing`, times.boat));
  console.log(spread('  the same, computing time alone', times.boatCpu));
  console.log(spread('  of that the look for slips and the fairing', times.look));
  console.log(`ours and matrices apart by at most ${apartDeg.toExponential(1)} degrees, on stations`);
}

const isOnStation = (atMm: number, lengthMm: number): boolean => Math.abs(((20 * atMm) / lengthMm) % 1) < 1e-9;

/** `cpuMs` is what this process computed, whoever else kept the machine busy meanwhile. */
function timed<T>(f: () => T): { readonly value: T; readonly ms: number; readonly cpuMs: number } {
  const [fromMs, from] = [performance.now(), process.cpuUsage()];
  const value = f();
  const { user, system } = process.cpuUsage(from);
  return { value, ms: performance.now() - fromMs, cpuMs: (user + system) / 1000 };
}

function both<S, F>(makeSurface: () => S, makeFrame: (surface: S, atMm: number) => F, places: readonly number[]) {
  const surface = timed(makeSurface);
  const frames = places.map((atMm) => timed(() => makeFrame(surface.value, atMm)));
  return { frames: frames.map(({ value }) => value), times: [surface.ms, ...frames.map(({ ms }) => ms)] };
}
