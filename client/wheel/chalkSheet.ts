/** The sizes of the chalk line: how the coming tilt is laid out, so that the next seconds fit and a tenth of a degree is seen. Pure. */

import type { RunSetup } from '../../server/core/run/engine/state.ts';
import { type ReadoutTable, shownDeg } from '../../server/core/saw/readout.ts';
import { mPerMinToMmPerMs } from '../../server/core/units.ts';
import { readoutFigure } from '../kit/figures/shownFigures.ts';
import { coordinate } from '../kit/page/coordinate.ts';

/** Preview helps a hand up to some seconds ahead; so much is seen at the crew's own feed, half of it at twice that. */
const AHEAD_MS = 5000;
const AHEAD_MM = [120, 500] as const;
/** What the tilt changes by in this time fits from the middle to the edge of the sheet; what it does later may run off it. */
const REACH_MS = 3000;
/** Less magnifies nothing but the noise of a sensor, more makes a tenth too small to see. */
const REACH_DEG = [1, 4] as const;
/** The strip where the tilt wanted and the tilt had lie end to end. */
const STRIP_SHARE = 0.2;
const BAND_SHARE = 0.16;

export interface ChalkSheet {
  readonly width: number;
  readonly height: number;
  /** Where the blade stands, across. */
  readonly bladeX: number;
  /** Where the tilt of now lies, down; the plank's band begins at `bandY`. */
  readonly nowY: number;
  readonly bandY: number;
  readonly perMm: number;
  readonly perDeg: number;
  /** The tilt along the stock, as a path: x along it in units of the sheet, y up from square. */
  readonly line: string;
  readonly wholeDegs: readonly number[];
  readonly marks: readonly SheetMark[];
}
export interface SheetMark {
  readonly mark: number;
  readonly figure: string;
  readonly x: number;
  readonly y: number;
  readonly isRising: boolean;
}

export function makeChalkSheet(
  setup: RunSetup,
  { readoutTable: table, readoutDeg }: { readonly readoutTable: ReadoutTable; readonly readoutDeg: number },
  box: { readonly width: number; readonly height: number },
): ChalkSheet {
  const { width, height } = box;
  const bladeX = width * STRIP_SHARE;
  const bandY = height * (1 - BAND_SHARE);
  const aheadMm = within(AHEAD_MM, mPerMinToMmPerMs(setup.crew.feedMPerMin) * AHEAD_MS);
  const reachMm = (aheadMm * REACH_MS) / AHEAD_MS;
  const places = setup.profile.positionsMm.map((positionMm, index) => ({
    positionMm,
    deg: shownDeg(setup.profile.tiltsDeg[index] ?? 0, table),
  }));
  const perMm = (width - bladeX) / aheadMm;
  const perDeg = (bandY / 2) * (0.86 / within(REACH_DEG, greatestChange(places, reachMm)));
  const at = (positionMm: number, deg: number): string =>
    `${coordinate(positionMm * perMm)} ${coordinate(-deg * perDeg)}`;
  const [first, last] = [places[0], places.at(-1)];
  const beyond =
    first === undefined || last === undefined
      ? []
      : [
          { positionMm: first.positionMm - 2 * aheadMm, deg: first.deg },
          ...places,
          { positionMm: last.positionMm + 2 * aheadMm, deg: last.deg },
        ];
  const degs = places.map(({ deg }) => deg);
  const lowest = Math.floor(Math.min(...degs)) - REACH_DEG[1];
  const highest = Math.ceil(Math.max(...degs)) + REACH_DEG[1];
  return {
    width,
    height,
    bladeX,
    nowY: bandY / 2,
    bandY,
    perMm,
    perDeg,
    line: `M${beyond.map(({ positionMm, deg }) => at(positionMm, deg)).join(' L')}`,
    wholeDegs: Array.from({ length: highest - lowest + 1 }, (_, index) => lowest + index),
    marks: setup.stations.map((station, index) => {
      const before = setup.stations[index - 1] ?? station;
      return {
        mark: station.mark,
        figure: readoutFigure(station.callDeg, readoutDeg),
        x: station.positionMm * perMm,
        y: -shownDeg(station.tiltDeg, table) * perDeg,
        isRising: station.tiltDeg >= before.tiltDeg,
      };
    }),
  };
}

const within = ([least, most]: readonly [number, number], value: number): number =>
  Math.min(most, Math.max(least, value));

/** The greatest difference between the tilt at a place and that anywhere in the stretch after it. */
function greatestChange(
  places: readonly { readonly positionMm: number; readonly deg: number }[],
  aheadMm: number,
): number {
  let greatest = 0;
  for (const [index, from] of places.entries())
    for (const to of places.slice(index + 1)) {
      if (to.positionMm - from.positionMm > aheadMm) break;
      greatest = Math.max(greatest, Math.abs(to.deg - from.deg));
    }
  return greatest;
}
