/** What the blade itself allows: how sharp a line it can be fed along, and what it leaves to a tilt without feed. */

import { roomText } from '../figures/degrees.ts';
import type { Length } from '../figures/lengths.ts';
import type { RipChoices } from '../job.ts';
import { interpolate } from '../numeric/interpolate.ts';
import { degToRad, MM_PER_INCH } from '../units.ts';
import { type TwistSaw, twistLimitDegPerM } from './twist.ts';

type Blade = Pick<TwistSaw, 'kerfMm' | 'bladeThicknessMm' | 'bladeWidthMm'>;

/**
 * Widths that blades are sold in, and the smallest radius that each is fed along, in inches.
 * Source: a band saw's manual (read); other tables differ by a quarter.
 */
const PUBLISHED_RADII_IN: readonly (readonly [widthIn: number, radiusIn: number])[] = [
  [1 / 4, 5 / 8],
  [3 / 8, 1 + 3 / 8],
  [1 / 2, 2 + 1 / 2],
  [5 / 8, 4],
  [3 / 4, 5 + 1 / 2],
  [1, 7 + 5 / 8],
  [1 + 1 / 4, 9 + 7 / 8],
];
export const SOLD_WIDTHS_MM: readonly number[] = PUBLISHED_RADII_IN.map(([widthIn]) => widthIn * MM_PER_INCH);

/** Published radii lie at 1.5 to 1.8 times the geometric floor of a usual set; wider blades than published are held to the upper end. */
const OVER_FLOOR = 1.8;

/** A straight blade W wide between the walls of a round kerf touches them where R = W^2 / (8 (k - g)). Derived. In mm. */
export const radiusFloorMm = ({ kerfMm, bladeThicknessMm, bladeWidthMm }: Blade): number =>
  bladeWidthMm ** 2 / (8 * (kerfMm - bladeThicknessMm));

/**
 * The smallest radius (mm) that this blade is fed along: as published, on a straight line between two widths, and never less
 * than what its own set leaves. Narrower blades than published are held to the narrowest one's figure.
 */
export function smallestRadiusMm(blade: Blade): number {
  const widthIn = blade.bladeWidthMm / MM_PER_INCH;
  const floorMm = radiusFloorMm(blade);
  const widestIn = PUBLISHED_RADII_IN.at(-1)?.[0] ?? 0;
  const publishedMm = MM_PER_INCH * interpolate(...columns(PUBLISHED_RADII_IN), widthIn);
  return Math.max(floorMm, publishedMm, widthIn > widestIn ? OVER_FLOOR * floorMm : 0);
}

const columns = (pairs: typeof PUBLISHED_RADII_IN): [number[], number[]] => [
  pairs.map(([width]) => width),
  pairs.map(([, radius]) => radius),
];

/** The widest blade sold (mm), no wider than the one in use, that can be fed along this radius; undefined if none can. */
export function widestForRadiusMm(blade: Blade, radiusMm: number): number | undefined {
  return [...SOLD_WIDTHS_MM]
    .reverse()
    .find(
      (bladeWidthMm) =>
        bladeWidthMm <= blade.bladeWidthMm + 1e-9 && smallestRadiusMm({ ...blade, bladeWidthMm }) <= radiusMm,
    );
}

/**
 * How far the blade could be tilted about its own axis, wherever the line that is followed may lie, while the wood stands still (degrees), before its body lies against the wall
 * of its own kerf: the wood at the farthest height h from the axis moves by h dtheta / cos b square to the blade, of which there
 * are (k - g) / 2. It is the twist limit over one width of the blade. Derived, no source. A bound and never a licence: see
 * `standStillSentence`.
 */
export const standStillDeg = (saw: TwistSaw, sidingMm: number, bevelDeg: number): number =>
  (twistLimitDegPerM(saw, sidingMm, bevelDeg) * saw.bladeWidthMm) / 1000;

/** From the tilt axis, at this height above the table, to the wood of the stock that is farthest from it. */
export const farEdgeMm = (pivotHeightMm: number, sidingMm: number): number =>
  Math.max(Math.abs(pivotHeightMm), Math.abs(sidingMm - pivotHeightMm));

/**
 * Why nothing is turned to while the wood stands still in the cut, with the room that this saw leaves (`standStillDeg`) and the
 * step that a degree makes at the far edge. `length` writes a length in the user's units. Plans kept before `farEdgeMm` was told
 * reckoned about the line that is followed: of those no figure is repeated unless the axis lay there, as it does along a fence.
 */
export function standStillSentence({ blade, feeds, straightAtMm }: ToldRip, sidingMm: number, length: Length): string {
  const edgeMm = blade.farEdgeMm ?? (feeds === 'along a fence' ? farEdgeMm(straightAtMm, sidingMm) : undefined);
  const room = edgeMm === undefined ? 'hardly any' : roomText(blade.standStillDeg);
  const step = edgeMm === undefined ? '' : ` (${length(edgeMm * degToRad(1))} a degree at the far edge)`;
  return (
    `Never tilt while the wood stands still in the cut. In this kerf the blade has ${room}${edgeMm === undefined ? '' : ' of'} room before its body lies ` +
    `against the wood; beyond that it is bent sideways, grabs and may break, and its teeth cut a step into both faces${step}. ` +
    'It cuts forward only: the tilt may change only as the wood moves.'
  );
}

interface ToldRip {
  readonly feeds: RipChoices['feeds'];
  readonly straightAtMm: number;
  readonly blade: { readonly standStillDeg: number; readonly farEdgeMm?: number };
}
