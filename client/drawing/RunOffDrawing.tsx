/** How far a plain stack without bevelled wedges would run off the plane of the frame: girth up, the plane a straight line. */
import { line } from 'd3-shape';
import type { OffsetsPlan } from '../../server/core/plan.ts';
import { lengthsIn } from '../kit/figures.ts';
import { useWidth } from './useWidth.ts';

const [TOP, BOTTOM, SIDE] = [30, 44, 40];

export function RunOffDrawing(props: { readonly runOff: OffsetsPlan['runOff']; readonly units: 'mm' | 'in' }) {
  const { places, atHeadMm } = props.runOff;
  const [box, width] = useWidth(420);
  const lengths = lengthsIn(props.units);
  const height = 340;
  const girthMm = places.at(-1)?.girthMm ?? 1;
  const upright = (height - TOP - BOTTOM) / girthMm;
  const offs = places.map(({ offMm }) => offMm);
  const [most, least] = [Math.max(...offs, 0), Math.min(...offs, 0)];
  // One scale for both, if the run-off then is wide enough to be seen and narrow enough for the page.
  const room = width - 2 * SIDE;
  const across = Math.min(room / Math.max(most - least, 1e-9), Math.max(upright, 60 / Math.max(most - least, 1e-9)));
  const drawn = (most - least) * across;
  const plane = (width - drawn) / 2 - least * across;
  const x = (offMm: number): number => plane + offMm * across;
  const y = (girth: number): number => height - BOTTOM - girth * upright;
  const path = line<{ girthMm: number; offMm: number }>()
    .x(({ offMm }) => x(offMm))
    .y((place) => y(place.girthMm));
  const isAft = atHeadMm > 0;

  return (
    <div ref={box} class="drawing">
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`A plain stack runs ${lengths.along(Math.abs(atHeadMm))} ${lengths.unit} ${isAft ? 'aft' : 'forward'} by the head`}
      >
        <path class="loft-thin" d={`M${plane} ${height - BOTTOM + 10} V${TOP - 12}`} />
        <path class="loft-curve" d={path(places) ?? ''} />
        <path class="loft-mark" d={`M${plane} ${y(girthMm)} H${x(atHeadMm)}`} />
        <text x={(plane + x(atHeadMm)) / 2} y={y(girthMm) - 10} text-anchor="middle" class="loft-call">
          {lengths.along(Math.abs(atHeadMm))} {lengths.unit}
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
            drawn {(across / upright).toFixed(0)} times as wide
          </text>
        )}
      </svg>
    </div>
  );
}
