/** Wanted tilt and the tilt that was, along the stock; below, how far off, on its own scale. */
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { Plan } from '../../server/core/plan/plan.ts';
import { type Debrief, stretchesOf } from '../../server/core/run/view/debrief.ts';
import { spread } from '../drawing/spread.ts';
import { useWidth } from '../drawing/useWidth.ts';
import { degFigure } from '../kit/figures/shownFigures.ts';

type Point = Debrief['trace'][number];

const LEFT = 52;
const RIGHT = 16;
const TOP = 18;

export function TiltDrawing({ plan, debrief }: { readonly plan: Plan; readonly debrief: Debrief }) {
  const [box, width] = useWidth(1000);
  const upper = Math.min(300, Math.max(180, width * 0.3));
  const lower = 110;
  const height = TOP + upper + 34 + lower + 40;
  const { trace } = debrief;
  const stretches = stretchesOf(trace);
  const tilts = trace.flatMap((point) => [point.wantedDeg, point.hadDeg]);
  const most = Math.max(0.5, ...trace.map((point) => Math.abs(point.hadDeg - point.wantedDeg)));
  const last = debrief.marks.at(-1)?.positionMm ?? trace.at(-1)?.positionMm ?? 1;
  const x = scaleLinear([0, last], [LEFT, width - RIGHT]).clamp(true);
  const y = scaleLinear([Math.min(...tilts), Math.max(...tilts)], [TOP + upper, TOP]).nice(5);
  const errorTop = TOP + upper + 34;
  const e = scaleLinear([-most, most], [errorTop + lower, errorTop]);
  const wanted = line<Point>()
    .x((point) => x(point.positionMm))
    .y((point) => y(point.wantedDeg));
  const had = line<Point>()
    .x((point) => x(point.positionMm))
    .y((point) => y(point.hadDeg));
  const off = area<Point>()
    .x((point) => x(point.positionMm))
    .y0(e(0))
    .y1((point) => e(point.hadDeg - point.wantedDeg));
  const markXs = debrief.marks.map((mark) => x(mark.positionMm));
  const isNumbered = spread(markXs, 26);

  return (
    <div ref={box} class="drawing">
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label="Tilt wanted and tilt that was, along the stock"
      >
        {y.ticks(5).map((deg) => (
          <g key={deg}>
            <path class="loft-grid" d={`M${LEFT} ${y(deg)} H${width - RIGHT}`} />
            <text class="loft-label" x={LEFT - 8} y={y(deg) + 5} text-anchor="end">
              {degFigure(deg, Number.isInteger(deg) ? 0 : 1)}°
            </text>
          </g>
        ))}
        {debrief.marks.map((mark, index) => (
          <g key={mark.mark}>
            <path class="loft-mark" d={`M${markXs[index]} ${TOP} V${errorTop + lower}`} />
            {isNumbered[index] === true && (
              <text class="loft-label" x={markXs[index]} y={height - 18} text-anchor="middle">
                {mark.mark}
              </text>
            )}
          </g>
        ))}
        <path class="loft-wanted" d={stretches.map((each) => wanted([...each])).join('')} />
        <path class="loft-curve" d={stretches.map((each) => had([...each])).join('')} />
        <path class="loft-off" d={stretches.map((each) => off([...each])).join('')} />
        <path class="loft-base" d={`M${LEFT} ${e(0)} H${width - RIGHT}`} />
        {[-most, most].map((deg) => (
          <text key={deg} class="loft-label" x={LEFT - 8} y={e(deg) + (deg < 0 ? 2 : 10)} text-anchor="end">
            {deg > 0 ? '+' : ''}
            {degFigure(deg, 1)}°
          </text>
        ))}
        {debrief.worst !== null && (
          <g class="loft-suspect">
            <path d={`M${x(debrief.worst.positionMm)} ${errorTop - 8} V${errorTop + lower + 4}`} />
            <text
              x={x(debrief.worst.positionMm)}
              y={errorTop - 12}
              text-anchor={markerAnchor(x(debrief.worst.positionMm), width)}
            >
              worst: {degFigure(debrief.worst.errorDeg)}°
            </text>
          </g>
        )}
        <text class="loft-label" x={(LEFT + width - RIGHT) / 2} y={height - 2} text-anchor="middle">
          marks, along the stock; the {plan.leads} is at the left
        </text>
      </svg>
      <ul class="legend">
        <li>
          <svg viewBox="0 0 34 16" aria-hidden="true">
            <path class="loft-wanted" d="M1 8 H33" />
          </svg>
          wanted
        </li>
        <li>
          <svg viewBox="0 0 34 16" aria-hidden="true">
            <path class="loft-curve" d="M1 8 H33" />
          </svg>
          tilt that was
        </li>
        <li>
          <svg viewBox="0 0 34 16" aria-hidden="true">
            <path class="loft-off" d="M1 12 C12 2 22 2 33 12 Z" />
          </svg>
          off by
        </li>
      </ul>
    </div>
  );
}

const markerAnchor = (at: number, width: number): 'start' | 'middle' | 'end' =>
  at < 120 ? 'start' : at > width - 120 ? 'end' : 'middle';
