/**
 * Frames from tables of offsets against hulls with closed forms (status: derived; each formula stands beside its hull): sin b = |n_x|
 * for the unit normal n, standing positive where the half-breadth grows from the moulded face into the frame.
 */
import { describe, expect, test } from 'vitest';
import { type FrameStand, type HullFrame, hullFrame } from '../../server/core/frame/hullFrame.ts';
import { runOff } from '../../server/core/frame/runOff.ts';
import { hullSurface } from '../../server/core/hull/surface.ts';
import { radToDeg } from '../../server/core/units.ts';
import { expectClose } from '../kit/close.ts';
import { type DrawnPoint, evenly, offsetTable } from '../kit/offsetTable.ts';
import { placeAtHeight } from '../kit/placeAtHeight.ts';
import { exactBevelDeg, halfBreadthMm, keelDownMm } from './wigleySection.ts';

const STATIONS = evenly(0, 10_000, 21);
const PLAIN = { cantDeg: 0, plankingMm: 0, sidingMm: 60, mouldedFace: 'forward' } as const;

type Section = (xMm: number) => readonly DrawnPoint[];
function frameOf(section: Section, stand: Partial<FrameStand> & { readonly atMm: number }): HullFrame {
  const frame = hullFrame(hullSurface(offsetTable(STATIONS, section)), { ...PLAIN, ...stand });
  if (frame === undefined) throw new Error(`no frame at ${stand.atMm}`);
  return frame;
}
const along = (frame: HullFrame, parts = 40) => evenly(0, frame.girthMm, parts + 1).map((girthMm) => frame.at(girthMm));

/** Quarter of a circle of radius r about (0, height), from the keel up. */
const arc = (r: number, height: number, points = 15): DrawnPoint[] =>
  evenly(0, Math.PI / 2, points).map((turn) => [r * Math.sin(turn), height - r * Math.cos(turn)]);

describe('a wedge: y = 40 + x/8 + z/2', () => {
  const section: Section = (x) => evenly(0, 1200, 15).map((z) => [40 + x / 8 + z / 2, z]);
  /** tan b = f_x / sqrt(1 + f_z^2). */
  const exactDeg = radToDeg(Math.atan(1 / 8 / Math.hypot(1, 1 / 2)));

  test('the same bevel everywhere, at the edge and across the siding, beyond the stations too', () => {
    for (const atMm of [0, 137, 5000, 9990, 10_000])
      for (const at of along(frameOf(section, { atMm }))) {
        expectClose(at.bevelDeg, exactDeg, 1e-9, 'bevel');
        expectClose(at.sawnDeg, exactDeg, 1e-9, 'sawn');
        expectClose(at.hollowMm, 0, 1e-7, 'hollow');
        expectClose(at.curvaturePerMm, 0, 1e-9, 'curvature');
      }
  });

  test('under from the aft face, and girth along the straight edge', () => {
    const frame = frameOf(section, { atMm: 4200, mouldedFace: 'aft' });
    for (const at of along(frame)) {
      expectClose(at.bevelDeg, -exactDeg, 1e-9, 'bevel');
      expectClose(at.sawnDeg, -exactDeg, 1e-9, 'sawn');
    }
    expectClose(frame.girthMm, 1200 * Math.hypot(1, 1 / 2), 1e-6, 'girth');
  });

  test('less planking, the edge lies one thickness in, square to the plane', () => {
    const plankingMm = 22;
    // n = (-f_x, 1, -f_z) / |...|: at one height the half-breadth shrinks by t |...|.
    const inMm = plankingMm * Math.hypot(1, 1 / 8, 1 / 2);
    for (const at of along(frameOf(section, { atMm: 3000, plankingMm }))) {
      expectClose(at.yMm, 40 + 3000 / 8 + at.zMm / 2 - inMm, 1e-6, 'half-breadth');
      expectClose(at.bevelDeg, exactDeg, 1e-9, 'bevel');
    }
  });

  test('canted by a', () => {
    for (const cantDeg of [-35, 10, 40]) {
      const cant = (cantDeg * Math.PI) / 180;
      // The frame plane's unit normal toward aft e = (cos a, -sin a, 0); sin b = -n.e with n = (-1/8, 1, -1/2) / |n|.
      const sine = (Math.cos(cant) / 8 + Math.sin(cant)) / Math.hypot(1, 1 / 8, 1 / 2);
      for (const at of along(frameOf(section, { atMm: 5000, cantDeg })))
        expectClose(at.bevelDeg, radToDeg(Math.asin(sine)), 1e-9, `bevel, cant ${cantDeg}`);
    }
  });
});

describe('a cylinder of radius 900', () => {
  const section: Section = () => arc(900, 900);
  test('square everywhere: nothing to bevel, nothing hollow, and a plain stack stays in its plane', () => {
    const frame = frameOf(section, { atMm: 4321 });
    for (const at of along(frame)) {
      expectClose(at.bevelDeg, 0, 1e-9, 'bevel');
      expectClose(at.sawnDeg, 0, 1e-9, 'sawn');
      expectClose(at.hollowMm, 0, 1e-9, 'hollow');
    }
    expectClose(frame.girthMm, (900 * Math.PI) / 2, 0.01, 'girth');
    expectClose(runOff(frame, 'forward').atHeadMm, 0, 1e-6, 'run-off');
  });
});

describe('a cone: radius 400 + x/10', () => {
  const slope = 0.1;
  const section: Section = (x) => arc(400 + slope * x, 1500);
  const exactDeg = radToDeg(Math.atan(slope));

  test('one bevel all around; straight along, so that the cut leaves nothing hollow', () => {
    for (const mouldedFace of ['forward', 'aft'] as const)
      for (const at of along(frameOf(section, { atMm: 3333, mouldedFace }))) {
        const sign = mouldedFace === 'forward' ? 1 : -1;
        expectClose(at.bevelDeg, sign * exactDeg, 2e-3, 'bevel');
        expectClose(at.sawnDeg, sign * exactDeg, 2e-3, 'sawn');
        expectClose(at.hollowMm, 0, 1e-3, 'hollow');
      }
  });

  test('planking off a cone leaves a cone; the frame is shorter by its thickness over cos b', () => {
    const plankingMm = 25;
    const frame = frameOf(section, { atMm: 3333, plankingMm });
    const radius = 400 + slope * 3333 - plankingMm * Math.hypot(1, slope);
    expectClose(frame.girthMm, (radius * Math.PI) / 2, 0.05, 'girth');
    for (const at of along(frame)) {
      expectClose(Math.hypot(at.yMm, at.zMm - 1500), radius, 0.02, 'radius');
      expectClose(at.bevelDeg, exactDeg, 2e-3, 'bevel');
      expectClose(at.curvaturePerMm * radius, 1, 0.01, 'curvature');
    }
  });

  /**
   * Unrolled, a cone is flat and its geodesics are straight. A section at slant distance p from the apex becomes an arc of radius p,
   * and an angle t around the cone t sin a of it; a straight line that sets out along the arc is p (1/cos(t sin a) - 1) off it there.
   */
  test('a plain stack runs off as the straight line on the unrolled cone does', () => {
    for (const [mouldedFace, atMm] of [
      ['forward', 2000],
      ['aft', 7000],
    ] as const) {
      const sinA = Math.sin(Math.atan(slope));
      const slantMm = (400 + slope * atMm) / sinA;
      const exactMm = slantMm * (1 / Math.cos((Math.PI / 2) * sinA) - 1);
      const off = runOff(frameOf(section, { atMm, mouldedFace }), mouldedFace);
      expectClose(off.atHeadMm, exactMm, 0.02 * exactMm, 'aft, for the cone grows aft');
      expectClose(off.slopeAtHead, Math.tan((Math.PI / 2) * sinA), 0.003, 'slope');
    }
  });
});

/** n = (x/a^2, y/b^2, z/c^2) / |...|, x from the middle; the radii of the section are those of the ellipse b', c' of that place. */
describe('an ellipsoid of half-axes 6000, 1500 and 1100', () => {
  const [a, b, c] = [6000, 1500, 1100];
  const section: Section = (x) => {
    const full = Math.sqrt(1 - ((x - 5000) / a) ** 2);
    return evenly(0.04, Math.PI / 2, 15).map((turn) => [b * full * Math.sin(turn), -c * full * Math.cos(turn)]);
  };
  const exact = (x: number, y: number, z: number): number => {
    const [nx, ny, nz] = [(x - 5000) / a ** 2, y / b ** 2, z / c ** 2];
    return radToDeg(Math.asin(-nx / Math.hypot(nx, ny, nz)));
  };

  test.each([1200, 2500, 4100, 5000, 6300, 8800])('the bevel all around, moulded face at %d', (atMm) => {
    for (const at of along(frameOf(section, { atMm })))
      expectClose(at.bevelDeg, exact(atMm, at.yMm, at.zMm), 0.01, `bevel at height ${at.zMm.toFixed(0)}`);
  });

  test('curvature of the moulded edge: that of its ellipse', () => {
    const full = Math.sqrt(1 - (1000 / a) ** 2);
    const [p, q] = [b * full, c * full];
    const frame = frameOf(section, { atMm: 4000 });
    for (const at of along(frame, 20).slice(1, -1)) {
      const turn = Math.atan2(at.yMm / p, -at.zMm / q);
      const wanted = (p * q) / ((p * Math.cos(turn)) ** 2 + (q * Math.sin(turn)) ** 2) ** 1.5;
      expectClose(at.curvaturePerMm / wanted, 1, 0.01, `curvature at height ${at.zMm.toFixed(0)}`);
    }
  });

  test('a canted frame: the same normal, off another plane', () => {
    const cantDeg = 25;
    const cant = (cantDeg * Math.PI) / 180;
    for (const at of along(frameOf(section, { atMm: 2600, cantDeg }))) {
      const [x, y] = [2600 + at.yMm * Math.sin(cant), at.yMm * Math.cos(cant)];
      const n = [(x - 5000) / a ** 2, y / b ** 2, at.zMm / c ** 2] as const;
      expectClose(n[0] * (x - 5000) + n[1] * y + n[2] * at.zMm, 1, 2e-4, 'on the ellipsoid');
      const sine = -(n[0] * Math.cos(cant) - n[1] * Math.sin(cant)) / Math.hypot(...n);
      expectClose(at.bevelDeg, radToDeg(Math.asin(sine)), 0.02, 'bevel');
    }
  });

  /** Across the siding in the plane square to the edge: solved for the ellipsoid's own surface by halving. */
  test('the chord across a wide siding, and what it leaves hollow at mid-siding', () => {
    const sidingMm = 120;
    const atMm = 2200;
    const frame = frameOf(section, { atMm, sidingMm });
    const outward = (at: { yMm: number; zMm: number }, x: number): number => {
      const gradient = Math.hypot(at.yMm / b ** 2, at.zMm / c ** 2);
      const [ny, nz] = [at.yMm / b ** 2 / gradient, at.zMm / c ** 2 / gradient];
      let [near, far] = [-300, 300];
      for (let i = 0; i < 80; i++) {
        const d = (near + far) / 2;
        const inside = ((at.yMm + d * ny) / b) ** 2 + ((at.zMm + d * nz) / c) ** 2 < 1 - ((x - 5000) / a) ** 2;
        [near, far] = inside ? [d, far] : [near, d];
      }
      return near;
    };
    for (const at of along(frame).slice(2, -2)) {
      const [half, whole] = [outward(at, atMm + sidingMm / 2), outward(at, atMm + sidingMm)];
      expectClose(at.sawnDeg, radToDeg(Math.atan(whole / sidingMm)), 0.02, 'sawn');
      const hollowMm = ((half - whole / 2) * sidingMm) / Math.hypot(sidingMm, whole);
      expectClose(at.hollowMm, hollowMm, 0.02, 'hollow');
      expect(at.sawnDeg).toBeLessThan(at.bevelDeg);
      expect(at.hollowMm).toBeGreaterThan(0);
    }
  });
});

/** Check values of the project, section 1 (formula: read; angles: derived): x from midships and z down, in a tenth of a metre's parts. */
describe('the Wigley hull of 10 m', () => {
  const section: Section = (x) =>
    evenly(keelDownMm, 0, 15).map((down) => [halfBreadthMm(x - 5000, down), keelDownMm - down]);
  const at = (frame: HullFrame, down: number) => placeAtHeight(frame, keelDownMm - down);

  test.each([
    [1250, 312.5, 1.7184],
    [2500, 0, 5.7106],
    [2500, 156.25, 5.1312],
    [2500, 312.5, 3.6797],
    [2500, 468.75, 1.8626],
    [3750, 156.25, 7.8864],
    [3750, 312.5, 6.0612],
    [4500, 312.5, 7.6022],
    [5000, 0, 11.3099],
  ])('%d mm from midships, %d mm down: %d degrees, standing before midships and under behind', (x, down, wantedDeg) => {
    expectClose(exactBevelDeg(x, down), wantedDeg, 5e-5, 'the formula');
    expectClose(at(frameOf(section, { atMm: 5000 + x }), down).bevelDeg, -wantedDeg, 0.015, 'behind');
    expectClose(at(frameOf(section, { atMm: 5000 - x }), down).bevelDeg, wantedDeg, 0.015, 'before');
    expectClose(
      at(frameOf(section, { atMm: 5000 - x, mouldedFace: 'aft' }), down).bevelDeg,
      -wantedDeg,
      0.015,
      'from aft',
    );
  });

  /**
   * The loft floor's own way: tan b = d / s, the distance square off one section curve to the next over their spacing (read: The
   * Gougeon Brothers on Boat Construction, chapter 16). A frame as wide as the spacing is sawn to just that.
   */
  test('the chords of the loft floor at x 2500, 312.5 down, spacing 250, and the mean of both neighbours', () => {
    const sawn = (mouldedFace: 'forward' | 'aft') =>
      at(frameOf(section, { atMm: 7500, sidingMm: 250, mouldedFace }), 312.5).sawnDeg;
    const [bow, midships] = [-sawn('forward'), sawn('aft')];
    expectClose(bow, 3.9499, 0.005, 'toward the bow');
    expectClose(midships, 3.427, 0.005, 'toward midships');
    const distances = [bow, midships].map((deg) => 250 * Math.tan((deg * Math.PI) / 180));
    const mean = ((distances[0] ?? 0) + (distances[1] ?? 0)) / 2;
    expectClose(radToDeg(Math.atan(mean / 250)), 3.6886, 0.005, 'mean of distances');
  });
});
