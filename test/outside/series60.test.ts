/**
 * Series 60, CB 0.60 parent, model 4210W: a real hull's published table. Source (read, in a copy): Todd, Series 60: Methodical
 * Experiments with Models of Single-Screw Merchant Ships, DTMB Report 1712, 1963, table 3 (US Government work, public domain); kept in
 * fixtures/series60-cb060-halfbreadths.csv. L/B 7.50, B/H 2.50; drawn here 15 m long.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type HullFrame, hullFrame } from '../../server/core/frame/hullFrame.ts';
import { misplacedStations } from '../../server/core/hull/misplaced.ts';
import { slipsIn } from '../../server/core/hull/slips.ts';
import { hullSurface } from '../../server/core/hull/surface.ts';
import { radToDeg } from '../../server/core/units.ts';
import { expectClose } from '../kit/close.ts';
import { evenly, offsetTable } from '../kit/offsetTable.ts';
import { placeAtHeight } from '../kit/placeAtHeight.ts';

const [LENGTH_MM, HALF_BEAM_MM, DRAUGHT_MM] = [15_000, 1000, 800];
const SPACING_MM = LENGTH_MM / 20;
const WATERLINES = [0, 0.075, 0.25, 0.5, 0.75, 1, 1.25, 1.5];

const rows = readFileSync(new URL('./fixtures/series60-cb060-halfbreadths.csv', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => /^[\d.]|^maxhb/.test(line))
  .map((line) => line.split(','));
const greatest = (rows.at(-1) ?? []).slice(1).map(Number);
const sections = new Map(
  rows.slice(0, -1).map((row) => [
    Number(row[0]),
    {
      halfMm: WATERLINES.map((_, j) => Number(row[j + 1]) * (greatest[j] ?? 0) * HALF_BEAM_MM),
      area: Number(row.at(-1)),
    },
  ]),
);
const sectionOf = (station: number) => {
  const section = sections.get(station);
  if (section === undefined) throw new Error(`no station ${station}`);
  return section;
};
const halfMm = (station: number, waterline: number): number =>
  sectionOf(station).halfMm[WATERLINES.indexOf(waterline)] ?? Number.NaN;

const table = offsetTable(
  [...sections.keys()].map((station) => station * SPACING_MM),
  (x) => WATERLINES.map((share, j) => [sectionOf(x / SPACING_MM).halfMm[j] ?? 0, share * DRAUGHT_MM]),
);
const surface = hullSurface(table);

function frameAt(station: number, sidingMm = 1, mouldedFace: 'forward' | 'aft' = 'forward'): HullFrame {
  const frame = hullFrame(surface, { atMm: station * SPACING_MM, cantDeg: 0, plankingMm: 0, sidingMm, mouldedFace });
  if (frame === undefined) throw new Error(`no frame at station ${station}`);
  return frame;
}
const onWaterline = (frame: HullFrame, waterline: number) => placeAtHeight(frame, waterline * DRAUGHT_MM);

test('the copied table: prismatic coefficient and centre of buoyancy by the trapezium rule on its own areas', () => {
  const stations = [...sections.keys()];
  const trapezium = (f: (station: number) => number): number =>
    stations.slice(1).reduce((sum, to, i) => {
      const from = stations[i] ?? 0;
      return sum + ((to - from) * (f(from) + f(to))) / 2;
    }, 0);
  const volume = trapezium((station) => sectionOf(station).area);
  expectClose(volume / 20, 0.6124, 1e-4, 'prismatic coefficient');
  const centre = trapezium((station) => station * sectionOf(station).area) / volume;
  expectClose((centre / 20 - 0.5) * 100, 1.484, 5e-3, 'centre of buoyancy, % of length aft of midships');
});

describe('bevels, by differences of the table itself', () => {
  /** tan b = |f_x| / sqrt(1 + f_z^2), from three and from five figures of the table in each direction (derived). */
  const three = (f: (i: number) => number, step: number): number => (f(1) - f(-1)) / (2 * step);
  const five = (f: (i: number) => number, step: number): number => (f(-2) - 8 * f(-1) + 8 * f(1) - f(2)) / (12 * step);
  const byDifferences = (station: number, waterline: number, rule: typeof three): number => {
    const lengthwise = rule((i) => halfMm(station + i, waterline), SPACING_MM);
    const upward = rule((i) => halfMm(station, waterline + i / 4), DRAUGHT_MM / 4);
    return radToDeg(Math.atan(Math.abs(lengthwise) / Math.hypot(1, upward)));
  };

  test.each([
    [4, 1, 12.109, 1],
    [17, 0.75, 12.076, -1],
  ])('station %d, waterline %d', (station, waterline, publishedDeg, sign) => {
    expectClose(byDifferences(station, waterline, three), publishedDeg, 5e-4, 'the check value');
    const { bevelDeg } = onWaterline(frameAt(station), waterline);
    expectClose(sign * bevelDeg, publishedDeg, 0.3, 'by three figures, which miss the third derivative');
    expectClose(sign * bevelDeg, byDifferences(station, waterline, five), 0.05, 'by five figures');
  });

  test.each([
    [4, 1, 12.109, 1],
    [17, 0.75, 12.076, -1],
  ])('station %d, waterline %d, by the chords to both neighbours', (station, waterline, publishedDeg, sign) => {
    const fore = -onWaterline(frameAt(station, SPACING_MM, 'aft'), waterline).sawnDeg;
    const aft = onWaterline(frameAt(station, SPACING_MM, 'forward'), waterline).sawnDeg;
    const mean = (Math.tan((fore * Math.PI) / 180) + Math.tan((aft * Math.PI) / 180)) / 2;
    expectClose(sign * radToDeg(Math.atan(mean)), publishedDeg, 0.35, 'mean of chords');
  });
});

/**
 * Half angle of entrance: 7.0 degrees (from memory); the table itself gives 7.74 by its first chord and 6.84 by the parabola through three
 * whole stations. This is the outermost station, where a tangent is worst: half a unit of the table's last figure is 0.1 degree of a chord
 * and 0.4 of the tangent that a cubic has there.
 */
test("the half angle of entrance on the load waterline: the chord is the table's, the tangent is off it by the rounding", () => {
  const frame = onWaterline(frameAt(0, SPACING_MM / 2), 1);
  expectClose(frame.sawnDeg, 7.74, 0.03, 'chord');
  expectClose(frame.bevelDeg, (6.8 + 7.8) / 2, 0.5 + 0.4, 'tangent');
});

/** Published CP 0.614 and LCB 1.50 % of the length aft of midships. */
test('the volume under the surface and its centre: the published ones', () => {
  const areaMm2 = (station: number): number => {
    const frame = frameAt(station);
    let sum = 0;
    const places = evenly(0, frame.girthMm, 401).map((girthMm) => frame.at(girthMm));
    places.slice(1).forEach((to, i) => {
      const from = places[i] ?? to;
      const [low, high] = [Math.min(DRAUGHT_MM, from.zMm), Math.min(DRAUGHT_MM, to.zMm)];
      sum += ((high - low) * (from.yMm + to.yMm)) / 2;
    });
    return sum;
  };
  const areas = evenly(0, 20, 161).map((station) => ({ station, areaMm2: areaMm2(station) }));
  const volume = areas.reduce((sum, { areaMm2: area }, i) => sum + (i === 0 || i === 160 ? 0.5 : 1) * area, 0) / 160;
  expectClose(volume / areaMm2(10), 0.614, 0.003, 'prismatic coefficient');
  const moment =
    areas.reduce((sum, { station, areaMm2: area }, i) => sum + (i === 0 || i === 160 ? 0.5 : 1) * station * area, 0) /
    160;
  expectClose((moment / volume / 20 - 0.5) * 100, 1.5, 0.1, 'centre of buoyancy, % of length aft of midships');
});

test('no figure of the published table is taken for a slip of the pen', () => {
  expect(slipsIn(table)).toEqual([]);
});

test('no station of the published table is taken for one at a wrong place', () => {
  const stations = table.stations.map((station) => ({
    ...station,
    xCell: { row: station.points[0]?.yCell.row ?? 0, column: 'x', text: `${station.xMm}` },
  }));
  expect(misplacedStations({ ...table, stations }).problems).toEqual([]);
});
