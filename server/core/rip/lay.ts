/** How the stock is laid on the table for the frame's main hand: what is positive tilt, which edge is up, which end goes first. */
import type { Job } from '../job.ts';
import { type Edge, otherEdge } from './wedges.ts';

export type Hand = 1 | -1;

export interface Lay {
  /** Tilt of the saw = hand x bevel of the frame, so that the readout is positive where the frame's greatest bevel is. */
  readonly hand: Hand;
  /**
   * The thick edge of the outer wedge. It is up on the table: upside down the same bevel is sawn, but where the line does not
   * run in the middle of the stock the two wedges change their thicknesses.
   */
  readonly thickEdge: Edge;
  readonly leads: 'heel' | 'head';
}

/** +1 where the bevel of greatest magnitude is standing, -1 where it is under; standing where both are equal. */
export function handOf(bevelsDeg: Iterable<number>): Hand {
  let greatest = 0;
  for (const deg of bevelsDeg) if (Math.abs(deg) > Math.abs(greatest) || (deg === -greatest && deg > 0)) greatest = deg;
  return greatest < 0 ? -1 : 1;
}

/**
 * Derived in space, x forward, y to port, z up, at a place where the frame stands plumb. The sawyer faces along the feed F with
 * the thick edge U up and the outboard side O on the side R to which the blade's top leans; a right-hand set of axes asks for
 * R = F x U, so F = U x R. Starboard (O = -y), thick edge aft (U = -x), leaning right (R = O): F = (-x) x (-y) = +z, up the
 * frame: the head leads. Each of port, thick edge forward and left lean turns one sign and with it the feed.
 * Upside down, turned half round about its length, the same stock is cut to the same bevel: a line that leans right still does.
 */
export function layOf(frame: Pick<Job['frame'], 'side' | 'mouldedFace'>, leans: 'left' | 'right', hand: Hand): Lay {
  const acrossFromFace = otherEdge(frame.mouldedFace);
  const thickEdge = hand === 1 ? acrossFromFace : frame.mouldedFace;
  const turns = [frame.side === 'port', thickEdge === 'forward', leans === 'left'].filter(Boolean).length;
  return { hand, thickEdge, leads: turns % 2 === 0 ? 'head' : 'heel' };
}

/** What has to stand in the job before the leading end can be trusted. */
const NEEDED = ['frame.side', 'frame.mouldedFace', 'saw.leans'];

/** The fields that `leads` needs and that the job left out; none: it is sure. */
export const unsureFields = (defaults: readonly string[]): string[] =>
  NEEDED.filter((field) => defaults.includes(field));
