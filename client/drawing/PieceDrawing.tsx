/** A sawn piece against the frame: the bevels that it has, those that the frame asks, and where wood comes off. */
import { scaleLinear } from 'd3-scale';
import { area, curveMonotoneX, line } from 'd3-shape';
import type { SavedPiece } from '../../server/core/sawn/savePiece.ts';
import { lengthsIn } from '../kit/figures/shownFigures.ts';
import { DegreeLines } from './DegreeLines.tsx';
import { spread } from './spread.ts';
import './loft.css';
import { useWidth } from './useWidth.ts';

const LEFT = 46;
const RIGHT = 18;
const TOP = 22;
const BOTTOM = 58;

type Point = SavedPiece['curve'][number];

export function PieceDrawing({ saved }: { readonly saved: SavedPiece }) {
  const [box, width] = useWidth(900);
  const height = Math.round(Math.min(360, Math.max(250, width * 0.36)));
  const lengths = lengthsIn(saved.notation);
  const { curve } = saved;
  const [from = 0, to = 1] = [curve[0]?.alongMm, curve.at(-1)?.alongMm];
  const bevels = curve.flatMap(({ haveDeg, wantDeg }) => [haveDeg, wantDeg]);
  const x = scaleLinear([from, to], [LEFT, width - RIGHT]);
  const y = scaleLinear([Math.min(0, ...bevels), Math.max(0, ...bevels)], [height - BOTTOM, TOP]).nice(5);
  const across = (deg: (point: Point) => number) =>
    line<Point>()
      .x((point) => x(point.alongMm))
      .y((point) => y(deg(point)))
      .curve(curveMonotoneX)([...curve]) ?? '';
  const off = area<Point>()
    .x((point) => x(point.alongMm))
    .y0((point) => y(point.wantDeg))
    .y1((point) => y(point.haveDeg))
    .curve(curveMonotoneX);
  const markXs = saved.places.map(({ alongMm }) => x(alongMm));
  const isNumbered = spread(markXs, 26);
  return (
    <div ref={box} class="drawing">
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label="Bevels of the piece against the frame's"
      >
        <DegreeLines degs={y.ticks(5)} yOf={y} left={LEFT} right={width - RIGHT} />
        <path class="piece-off" d={off([...curve]) ?? ''} />
        {saved.places.map((place, index) => (
          <g key={place.mark}>
            <path class="loft-mark" d={`M${markXs[index]} ${TOP} V${height - BOTTOM}`} />
            {isNumbered[index] === true && (
              <text class="loft-label" x={markXs[index]} y={height - BOTTOM + 19} text-anchor="middle">
                {place.mark}
              </text>
            )}
          </g>
        ))}
        <path class="loft-curve" d={across(({ wantDeg }) => wantDeg)} />
        <path class="piece-had" d={across(({ haveDeg }) => haveDeg)} />
        <text class="loft-end" x={LEFT} y={height - 10}>
          HEEL {lengths.along(from)}
        </text>
        <text class="loft-end" x={width - RIGHT} y={height - 10} text-anchor="end">
          HEAD {lengths.alongText(to)}
        </text>
      </svg>
      <ul class="legend">
        <li>
          <svg viewBox="0 0 34 16" aria-hidden="true">
            <path class="loft-curve" d="M1 12 C12 2 22 2 33 10" />
          </svg>
          what the frame asks, at this shift
        </li>
        <li>
          <svg viewBox="0 0 34 16" aria-hidden="true">
            <path class="piece-had" d="M1 10 C12 4 22 4 33 12" />
          </svg>
          what was measured, faired
        </li>
      </ul>
    </div>
  );
}
