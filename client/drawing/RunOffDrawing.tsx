/** How far a plain stack without bevelled wedges would run off the plane of the frame: girth up, the plane a straight line. */

import { line } from 'd3-shape';
import type { Notation } from '../../server/core/figures/notation.ts';
import { wholeFigure } from '../../server/core/figures/shares.ts';
import type { OffsetsPlan } from '../../server/core/frame/findings.ts';
import { lengthsIn } from '../kit/figures/shownFigures.ts';
import { useWidth } from './useWidth.ts';

const [TOP, BOTTOM, SIDE] = [30, 44, 40];
const SEEN_PX = 60;
const MOST_WIDENED = 10;
/** Shorter ones are told to a tenth. */
const SHORT_MM = 20;

export function RunOffDrawing(props: { readonly runOff: OffsetsPlan['runOff']; readonly notation: Notation }) {
  const { places, atHeadMm } = props.runOff;
  const [box, width] = useWidth(420);
  const lengths = lengthsIn(props.notation);
  const height = 340;
  const girthMm = places.at(-1)?.girthMm ?? 1;
  const upright = (height - TOP - BOTTOM) / girthMm;
  const offs = places.map(({ offMm }) => offMm);
  const [most, least] = [Math.max(...offs, 0), Math.min(...offs, 0)];
  const span = Math.max(most - least, 1e-9);
  // One scale for both, but where the run-off would hardly be seen or not fit the page.
  const seen = Math.min(MOST_WIDENED * upright, SEEN_PX / span);
  const across = Math.min((width - 2 * SIDE) / span, Math.max(upright, seen));
  const drawn = (most - least) * across;
  const plane = (width - drawn) / 2 - least * across;
  const x = (offMm: number): number => plane + offMm * across;
  const y = (girth: number): number => height - BOTTOM - girth * upright;
  const path = line<{ girthMm: number; offMm: number }>()
    .x(({ offMm }) => x(offMm))
    .y((place) => y(place.girthMm));
  const isAft = atHeadMm > 0;
  const size = Math.abs(atHeadMm);
  const told = size < SHORT_MM ? lengths.fineText(size) : lengths.alongText(size);

  return (
    <div ref={box} class="drawing">
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`A plain stack runs ${told} ${isAft ? 'aft' : 'forward'} by the head`}
      >
        <path class="loft-thin" d={`M${plane} ${height - BOTTOM + 10} V${TOP - 12}`} />
        <path class="loft-curve" d={path(places) ?? ''} />
        <path class="loft-mark" d={`M${plane} ${y(girthMm)} H${x(atHeadMm)}`} />
        <text x={(plane + x(atHeadMm)) / 2} y={y(girthMm) - 10} text-anchor="middle" class="loft-call">
          {told}
        </text>
        <text
          class="loft-label"
          x={plane + (isAft ? -10 : 10)}
          y={(TOP + height - BOTTOM) / 2}
          text-anchor={isAft ? 'end' : 'start'}
        >
          the frame
        </text>
        <text class="loft-end" x={plane} y={height - 14} text-anchor="middle">
          HEEL
        </text>
        <text class="loft-label" x={8} y={height - 14}>
          forward
        </text>
        <text class="loft-label" x={width - 8} y={height - 14} text-anchor="end">
          aft
        </text>
        {across > 1.1 * upright && (
          <text class="loft-label" x={width - 8} y={TOP} text-anchor="end">
            drawn {wholeFigure(across / upright)} times as wide
          </text>
        )}
      </svg>
    </div>
  );
}
