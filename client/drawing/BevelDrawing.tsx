/** The plan as a lofting drawing: the fair bevel curve over the girth, what was picked up, and the marks with their calls. */
import { scaleLinear } from 'd3-scale';
import { curveMonotoneX, line } from 'd3-shape';
import type { Plan } from '../../server/core/plan/plan.ts';
import { degFigure, lengthsIn, readoutFigure } from '../kit/figures/shownFigures.ts';
import { DegreeLines } from './DegreeLines.tsx';
import { spread } from './spread.ts';
import { useWidth } from './useWidth.ts';

const LEFT = 46;
const RIGHT = 18;
const TOP = 46;
const BOTTOM = 62;

export function BevelDrawing({ plan }: { readonly plan: Plan }) {
  const [box, width] = useWidth(1000);
  const height = Math.round(Math.min(520, Math.max(330, width * 0.42)));
  const lengths = lengthsIn(plan.notation);
  const bevels = [
    ...[...plan.curve, ...plan.pickedUp, ...offsetsBevels(plan.against)].map((point) => point.bevelDeg),
    ...plan.marks.flatMap(({ sawnDeg, errorDeg = 0 }) => [sawnDeg - errorDeg, sawnDeg + errorDeg]),
  ];
  const x = scaleLinear([0, plan.girthMm], [LEFT, width - RIGHT]);
  const y = scaleLinear([Math.min(0, ...bevels), Math.max(0, ...bevels)], [height - BOTTOM, TOP]).nice(6);
  const curve = line<{ girthMm: number; bevelDeg: number }>()
    .x((point) => x(point.girthMm))
    .y((point) => y(point.bevelDeg))
    .curve(curveMonotoneX);
  const markXs = plan.marks.map((mark) => x(mark.girthMm));
  const isNumbered = spread(markXs, 26);
  const isCalled = spread(markXs, 44);
  const [lowest = 0, highest = 0] = y.domain();

  return (
    <div ref={box} class="drawing">
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label="Bevel along the girth"
      >
        <DegreeLines degs={y.ticks(6)} yOf={y} left={LEFT} right={width - RIGHT} />
        {plan.against !== undefined && <path class="loft-offsets" d={curve(offsetsBevels(plan.against)) ?? ''} />}
        <path class="loft-curve" d={curve(plan.curve) ?? ''} />
        {plan.marks.map((mark, index) => (
          <g key={mark.mark}>
            <path class="loft-mark" d={`M${markXs[index]} ${TOP - 10} V${height - BOTTOM}`} />
            {mark.errorDeg !== undefined && (
              <path
                class="loft-error"
                d={`M${markXs[index]} ${y(mark.sawnDeg - mark.errorDeg)} V${y(mark.sawnDeg + mark.errorDeg)}`}
              />
            )}
            <circle class="loft-on-curve" cx={markXs[index]} cy={y(mark.sawnDeg)} r={2.6} />
            {isCalled[index] === true && (
              <text class="loft-call" x={markXs[index]} y={TOP - 17} text-anchor="middle">
                {readoutFigure(mark.callDeg, plan.saw.readoutDeg)}
              </text>
            )}
            {isNumbered[index] === true && (
              <text class="loft-label" x={markXs[index]} y={height - BOTTOM + 19} text-anchor="middle">
                {mark.mark}
              </text>
            )}
          </g>
        ))}
        {plan.pickedUp.map((point) =>
          point.suspect ? null : (
            <circle key={point.girthMm} class="loft-picked" cx={x(point.girthMm)} cy={y(point.bevelDeg)} r={4.5} />
          ),
        )}
        {(plan.fairing.measureAgain ?? []).map(({ row, girthMm, foundDeg }) => {
          const isAtRight = x(girthMm) > width - 190;
          return (
            <g key={`again ${row}`} class="loft-again">
              <circle cx={x(girthMm)} cy={y(foundDeg)} r={10} />
              <text
                x={x(girthMm) + (isAtRight ? -15 : 15)}
                y={y(foundDeg) + 5}
                text-anchor={isAtRight ? 'end' : 'start'}
              >
                measure again, row {row}
              </text>
            </g>
          );
        })}
        {plan.fairing.suspects.map((suspect) => {
          const sx = x(suspect.girthMm);
          const sy = y(suspect.foundDeg);
          const isAtRight = sx > width - 190;
          return (
            <g key={suspect.row} class="loft-suspect">
              <path stroke-dasharray="2 4" d={`M${sx} ${sy} V${y(suspect.fairDeg)}`} />
              <rect x={sx - 7} y={sy - 7} width={14} height={14} />
              <path d={`M${sx - 4} ${sy - 4} l8 8 m0 -8 l-8 8`} />
              <text x={isAtRight ? sx - 13 : sx + 13} y={sy + 5} text-anchor={isAtRight ? 'end' : 'start'}>
                suspect, row {suspect.row}: {degFigure(suspect.foundDeg)}°
              </text>
            </g>
          );
        })}
        {highest > 0 && (
          <text class="loft-region" x={width - RIGHT} y={y(highest) + 18} text-anchor="end">
            standing
          </text>
        )}
        {lowest < 0 && (
          <text class="loft-region" x={width - RIGHT} y={y(lowest) - 8} text-anchor="end">
            under
          </text>
        )}
        <text class="loft-end" x={LEFT} y={height - 12}>
          HEEL 0
        </text>
        {width > 560 && (
          <text class="loft-label" x={(LEFT + width - RIGHT) / 2} y={height - 12} text-anchor="middle">
            marks, along the girth
          </text>
        )}
        <text class="loft-end" x={width - RIGHT} y={height - 12} text-anchor="end">
          HEAD {lengths.alongText(plan.girthMm)}
        </text>
        <text class="loft-label" x={6} y={TOP - 17}>
          call
        </text>
      </svg>
      <ul class="legend">
        <li>
          <svg viewBox="0 0 34 16" aria-hidden="true">
            <path class="loft-curve" d="M1 12 C12 2 22 2 33 10" />
          </svg>
          {plan.offsets === undefined ? 'fair bevel' : 'bevel as sawn, from the offsets'}
        </li>
        {plan.marks.some(({ errorDeg }) => errorDeg !== undefined) && (
          <li>
            <svg viewBox="0 0 34 16" aria-hidden="true">
              <path class="loft-error" d="M17 1 V15" />
            </svg>
            may be off so far
          </li>
        )}
        {plan.pickedUp.length > 0 && (
          <li>
            <svg viewBox="0 0 34 16" aria-hidden="true">
              <circle class="loft-picked" cx="17" cy="8" r="4.5" />
            </svg>
            picked up
          </li>
        )}
        {plan.against !== undefined && (
          <li>
            <svg viewBox="0 0 34 16" aria-hidden="true">
              <path class="loft-offsets" d="M1 12 C12 2 22 2 33 10" />
            </svg>
            of the offsets
          </li>
        )}
        {plan.fairing.suspects.length > 0 && (
          <li>
            <svg viewBox="0 0 34 16" class="loft-suspect" aria-hidden="true">
              <rect x="10" y="1" width="14" height="14" />
              <path d="M13 4 l8 8 m0 -8 l-8 8" />
            </svg>
            suspect, left out of the fairing
          </li>
        )}
      </ul>
    </div>
  );
}

const offsetsBevels = (against: Plan['against']) =>
  (against?.rows ?? []).map(({ girthMm, offsetsDeg }) => ({ girthMm, bevelDeg: offsetsDeg }));
