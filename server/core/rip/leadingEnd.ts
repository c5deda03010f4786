/** How the stock is laid on the table for the frame's main hand: what is positive tilt, which edge is up, which end goes first. */
import type { Job } from '../job.ts';
import { bevelSign, type Halves, sawSolids, thickEdgeOf, WAYS_TO_LAY } from './solids.ts';
import type { Edge } from './wedges.ts';

export type MainHand = 1 | -1;

export interface Orientation {
  /** Tilt of the saw = hand x bevel of the frame, so that the readout is positive where the frame's greatest bevel is. */
  readonly hand: MainHand;
  /**
   * The thick edge of the outer wedge. It is up on the table: upside down the same bevel is sawn, but where the line does not
   * run in the middle of the stock the two wedges change their thicknesses.
   */
  readonly thickEdge: Edge;
  readonly leads: 'heel' | 'head';
  /** The half that becomes the outer wedge. */
  readonly outerIs: Halves['outerIs'];
}

/** +1 where the bevel of greatest magnitude is standing, -1 where it is under; standing where both are equal. */
export function handOf(bevelsDeg: Iterable<number>): MainHand {
  let greatest = 0;
  for (const deg of bevelsDeg) if (Math.abs(deg) > Math.abs(greatest) || (deg === -greatest && deg > 0)) greatest = deg;
  return greatest < 0 ? -1 : 1;
}

/** Any stock and any tilt show the same way round: these are easy to follow by hand. */
const TRIAL = { sidingMm: 60, thicknessMm: 40 } as const;
const TRIAL_BLADE = { tiltDeg: 10, kerfMm: 2, throughMm: [30, 20] } as const;

/**
 * Found by sawing: a stock is laid in each of the four ways, cut at a positive tilt, and its halves are set up in the frame
 * (solids.ts). Two ways give a bevel of the hand that is asked for, one and the same stock upside down; of these the one with the
 * thick edge of the outer wedge up.
 * By hand, for a check: starboard, thick edge aft, top leaning to the sawyer's right. The sawyer faces along the feed F, the thick
 * edge U (= aft) up, the outboard side (= starboard) on his right R; R = F x U, so F = U x R = aft x starboard = up the frame: the
 * head leads. Each of port, thick edge forward and left lean turns one sign and with it the feed.
 */
export function orientationOf(
  frame: Pick<Job['frame'], 'side' | 'mouldedFace'>,
  leans: 'left' | 'right',
  hand: MainHand,
): Orientation {
  for (const laid of WAYS_TO_LAY) {
    const halves = sawSolids(laid, { ...TRIAL_BLADE, leans }, TRIAL, frame.side);
    const thickEdge = thickEdgeOf(halves);
    if (bevelSign(halves, frame.mouldedFace) === hand && thickEdge === laid.up)
      return { hand, thickEdge, leads: laid.leads, outerIs: halves.outerIs };
  }
  throw new Error(
    `no way to lay a ${frame.side} frame, moulded face ${frame.mouldedFace}, hand ${hand}, lean ${leans}`,
  );
}

type Side = 'left' | 'right';
export const oppositeSide = (side: Side): Side => (side === 'right' ? 'left' : 'right');

/** The sawyer's side on which the fence stands: the one that the top of the blade leans away from (common practice, no source). */
export const fenceSide = ({ leans }: { readonly leans: Side }): Side => oppositeSide(leans);

/** What has to stand in the job before the leading end can be trusted. */
const NEEDED = ['frame.side', 'frame.mouldedFace', 'saw.leans'];

/** The fields that `leads` needs and that the job left out; none: it is sure. */
export const unsureFields = (defaults: readonly string[]): string[] =>
  NEEDED.filter((field) => defaults.includes(field));
