import { bevelErrorDeg } from '../../../server/core/frame/bevelError.ts';
import { hullFrame } from '../../../server/core/frame/hullFrame.ts';
import { fairHull } from '../../../server/core/hull/fairHull.ts';
import { chance } from '../../core/frame/fairFrames.ts';
import { hardHull, offsetsOf, randomHull } from '../../core/hull/analyticHull.ts';

const [HULLS, STATIONS, POINTS, PLACES] = [60, 21, 15, 29];
/** In bays from forward: three places in each of the outermost two on either side, and some within. */
const BAYS = [0.3, 0.5, 0.7, 1.3, 1.5, 1.7, 2.4, 3.6, 6.3, 9.7, 13.4, 16.6, 17.6, 18.3, 18.5, 18.7, 19.3, 19.5, 19.7];
const STEPS = [
  ['exact', 0],
  ['to the mm', 1],
  ['to the 1/8 in', 3.175],
] as const;

interface Place {
  readonly bays: number;
  readonly isEnd: boolean;
  readonly offDeg: number;
  readonly errorDeg: number;
  readonly frame: string;
}

/**
 * How wrong bevels from offsets are, and what is told of it: fair hulls and hard ones (wineglass, strong flare, a hard bilge), of 21 stations
 * of 15 points, each known exactly. Within 5 % of the girth of heel and head is told by itself.
 */
export async function offsetsError(): Promise<void> {
  for (const [name, make] of [
    ['fair hulls', randomHull],
    ['hard hulls', hardHull],
  ] as const)
    for (const [rounded, stepMm] of STEPS) {
      const places = Array.from({ length: HULLS }, (_, i) => placesOf(`${i}`, make(chance(8000 + i)), stepMm)).flat();
      console.log(`${HULLS} ${name}, ${rounded}`);
      tell(
        'two bays in and more',
        places.filter(({ bays, isEnd }) => bays > 2 && !isEnd),
      );
      tell(
        'one bay in',
        places.filter(({ bays, isEnd }) => bays > 1 && bays < 2 && !isEnd),
      );
      tell(
        'in the outermost bay',
        places.filter(({ bays, isEnd }) => bays < 1 && !isEnd),
      );
      tell(
        'heel and head, two bays in and more',
        places.filter(({ bays, isEnd }) => bays > 2 && isEnd),
      );
      tell(
        'heel and head, one bay in',
        places.filter(({ bays, isEnd }) => bays > 1 && bays < 2 && isEnd),
      );
      tell(
        'heel and head, in the outermost bay',
        places.filter(({ bays, isEnd }) => bays < 1 && isEnd),
      );
      tell('everywhere', places);
    }
}

function placesOf(hullName: string, hull: ReturnType<typeof hardHull>, stepMm: number): readonly Place[] {
  const fair = fairHull(offsetsOf(hull, STATIONS, POINTS, stepMm));
  return BAYS.flatMap((bay) => {
    const atMm = (hull.traits.lengthMm * bay) / (STATIONS - 1);
    const stand = { atMm, cantDeg: 0, plankingMm: 0, sidingMm: 1, mouldedFace: 'forward' as const };
    const frame = hullFrame(fair.surface, stand);
    if (frame === undefined) return [];
    const errorAt = bevelErrorDeg(fair, frame, stand);
    return hull.frame(atMm, PLACES).map(({ girthMm, bevelDeg, share }) => {
      const at = Math.min(girthMm, frame.girthMm);
      return {
        bays: Math.min(bay, STATIONS - 1 - bay),
        isEnd: share < 0.05 || share > 0.95,
        offDeg: Math.abs(frame.at(at).sawnDeg - bevelDeg),
        errorDeg: errorAt(at),
        frame: `${hullName} ${bay}`,
      };
    });
  });
}

function tell(where: string, places: readonly Place[]): void {
  const offs = places.map(({ offDeg }) => offDeg);
  const rms = Math.sqrt(offs.reduce((sum, deg) => sum + deg * deg, 0) / offs.length);
  const covered = places.filter(({ offDeg, errorDeg }) => offDeg <= 2 * errorDeg).length / places.length;
  const told = places.map(({ errorDeg }) => errorDeg).sort((a, b) => a - b);
  const warned = new Set(places.flatMap(({ errorDeg, frame }) => (errorDeg >= 1 ? [frame] : [])));
  const frames = new Set(places.map(({ frame }) => frame));
  console.log(
    `  ${where.padEnd(38)} off: worst ${Math.max(...offs).toFixed(2)} rms ${rms.toFixed(3)}   told: middle ${(told[Math.floor(told.length / 2)] ?? 0).toFixed(2)} worst ${(told.at(-1) ?? 0).toFixed(2)}   ` +
      `covered by twice that ${(100 * covered).toFixed(1)} %   frames warned of ${warned.size} of ${frames.size}`,
  );
}
