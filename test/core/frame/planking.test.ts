/**
 * Planking deducted, against hulls known exactly: a place of the hull and its inside, one thickness in along the normal, have the same
 * normal, so the bevel of the inside is known where that inside lies in the frame's plane.
 */
import { expect, test } from 'vitest';
import { hullFrame } from '../../../server/core/frame/hullFrame.ts';
import { hullSurface } from '../../../server/core/hull/surface.ts';
import { degToRad } from '../../../server/core/units.ts';
import { expectClose } from '../../kit/close.ts';
import { evenly } from '../../kit/offsetTable.ts';
import { type AnalyticHull, offsetsOf, randomHull } from '../hull/analyticHull.ts';
import { chance } from './fairFrames.ts';

const PLACES = 61;

/** The place inside the planking in the plane at `atMm`, whose outside is place k of a section that is looked for. */
function insideAt(hull: AnalyticHull, atMm: number, k: number, thicknessMm: number) {
  let x = atMm;
  for (let round = 0; round < 40; round++) {
    const outside = hull.frame(x, PLACES)[k];
    const section = hull.section(x, PLACES);
    const [below, above] = [section[k - 1], section[k + 1]];
    if (outside === undefined || below === undefined || above === undefined) throw new Error(`no place ${k} at ${x}`);
    const bevel = degToRad(outside.bevelDeg);
    const [dy, dz] = [above[0] - below[0], above[1] - below[1]];
    const size = Math.hypot(dy, dz);
    const missedMm = x + thicknessMm * Math.sin(bevel) - atMm;
    if (Math.abs(missedMm) < 1e-8)
      return {
        yMm: outside.yMm - (thicknessMm * Math.cos(bevel) * dz) / size,
        zMm: outside.zMm + (thicknessMm * Math.cos(bevel) * dy) / size,
        bevelDeg: outside.bevelDeg,
      };
    x -= missedMm;
  }
  throw new Error(`no inside at ${atMm}`);
}

test('the bevel inside the planking is that of the hull outside it', () => {
  for (let n = 0; n < 4; n++) {
    const hull = randomHull(chance(400 + n));
    const atMm = (0.25 + 0.15 * n) * hull.traits.lengthMm;
    const stand = { atMm, cantDeg: 0, plankingMm: 22, sidingMm: 40, mouldedFace: 'forward' } as const;
    const frame = hullFrame(hullSurface(offsetsOf(hull, 21, 15, 0)), stand);
    if (frame === undefined) throw new Error(`no frame at ${atMm}`);
    const along = evenly(0, frame.girthMm, 1500).map((girthMm) => frame.at(girthMm));
    for (let k = 5; k < PLACES - 5; k += 5) {
      const wanted = insideAt(hull, atMm, k, 22);
      const far = (place: (typeof along)[number]): number => Math.hypot(place.yMm - wanted.yMm, place.zMm - wanted.zMm);
      const nearest = along.reduce((a, b) => (far(b) < far(a) ? b : a));
      expect(far(nearest)).toBeLessThan(1.5);
      expectClose(nearest.bevelDeg, wanted.bevelDeg, 0.06, `place ${k} at ${atMm.toFixed(0)}`);
    }
  }
});
