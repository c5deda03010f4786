/** Which way round: a plank fed the wrong end first is scrap. Said in a sentence and drawn, once from above, once across the wedges. */
import type { Plan, PlannedMark } from '../../server/core/plan.ts';
import { lengthsIn, readoutFigure } from '../kit/figures.ts';
import { useWidth } from './useWidth.ts';

export function WhichWay({ plan }: { readonly plan: Plan }) {
  const [box, width] = useWidth(520);
  return (
    <div ref={box} class="drawing stack">
      <FromAbove plan={plan} width={width} />
      <Wedges plan={plan} width={width} />
    </div>
  );
}

function FromAbove({ plan, width }: { readonly plan: Plan; readonly width: number }) {
  const blade = width * 0.24;
  const tip = blade + 34;
  const end = width - 20;
  const marks = plan.leads === 'heel' ? plan.marks : [...plan.marks].reverse();
  const first = marks[0];
  const last = marks.at(-1);
  const other = plan.leads === 'heel' ? 'HEAD' : 'HEEL';
  const range = Math.abs((last?.stockMm ?? 0) - (first?.stockMm ?? 0)) || 1;
  const at = (mark: PlannedMark): number =>
    tip + 62 + (Math.abs(mark.stockMm - (first?.stockMm ?? 0)) / range) * (end - tip - 134);
  return (
    <figure>
      <svg
        width={width}
        height={150}
        viewBox={`0 0 ${width} 150`}
        role="img"
        aria-label={`From above: the ${plan.leads} end meets the blade first`}
      >
        <rect class="loft-thin" x={2} y={22} width={width - 4} height={92} />
        <path class="loft-fill loft-strong-line" d={`M${tip} 48 H${end} V88 H${tip} Z`} />
        {marks.map((mark) => (
          <path key={mark.mark} class="loft-thin" d={`M${at(mark)} 48 v12`} />
        ))}
        <text class="loft-end" x={tip + 8} y={81}>
          {plan.leads.toUpperCase()}
        </text>
        <text class="loft-end" x={end - 8} y={81} text-anchor="end">
          {other}
        </text>
        <path class="loft-blade" d={`M${blade - 14} 68 h28`} />
        <text class="loft-label" x={blade} y={40} text-anchor="middle">
          blade
        </text>
        <path class="loft-arrow" d={`M${width * 0.62} 101 H${width * 0.4} m11 -6 l-11 6 l11 6`} />
        <text class="loft-label" x={width * 0.62 + 8} y={106}>
          feed
        </text>
        <text class="loft-label" x={6} y={138}>
          tailer
        </text>
        <text class="loft-label" x={width - 6} y={138} text-anchor="end">
          sawyer
        </text>
      </svg>
      <figcaption>From above. First mark at the blade: {first?.mark}.</figcaption>
    </figure>
  );
}

/** Both wedges and the stack between them, true to shape, where the bevel is greatest. */
function Wedges({ plan, width }: { readonly plan: Plan; readonly width: number }) {
  const lengths = lengthsIn(plan.units);
  const steepest = plan.marks.reduce((most, mark) => (Math.abs(mark.sawnDeg) > Math.abs(most.sawnDeg) ? mark : most));
  const [outerForward, outerAft] = steepest.outerEdgesMm;
  const [innerForward, innerAft] = steepest.innerEdgesMm;
  const siding = plan.frame.sidingMm;
  const stack = plan.stack.plies * plan.stack.laminationMm;
  const tall = stack + Math.max(outerForward, outerAft) + Math.max(innerForward, innerAft);
  const scale = Math.min((width - 220) / siding, 230 / tall);
  const left = (width - siding * scale) / 2;
  const right = left + siding * scale;
  const top = 26 + Math.max(outerForward, outerAft) * scale;
  const bottom = top + stack * scale;
  const height = bottom + Math.max(innerForward, innerAft) * scale + 34;
  return (
    <figure>
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`The wedges at mark ${steepest.mark}`}
      >
        {Array.from({ length: Math.max(0, plan.stack.plies - 1) }, (_, ply) => (
          <path
            key={ply}
            class="loft-grid"
            d={`M${left} ${top + (ply + 1) * plan.stack.laminationMm * scale} H${right}`}
          />
        ))}
        <path class="loft-thin" d={`M${left} ${top} V${bottom} M${right} ${top} V${bottom}`} />
        <path
          class="loft-fill loft-strong-line"
          d={`M${left} ${top} V${top - outerForward * scale} L${right} ${top - outerAft * scale} V${top} Z`}
        />
        <path
          class="loft-fill loft-strong-line"
          d={`M${left} ${bottom} V${bottom + innerForward * scale} L${right} ${bottom + innerAft * scale} V${bottom} Z`}
        />
        <text class="loft-label" x={left - 10} y={top - (outerForward * scale) / 2 + 5} text-anchor="end">
          forward {lengths.fine(outerForward)}
        </text>
        <text class="loft-label" x={right + 10} y={top - (outerAft * scale) / 2 + 5}>
          aft {lengths.fine(outerAft)}
        </text>
        <text class="loft-label" x={left - 10} y={bottom + (innerForward * scale) / 2 + 5} text-anchor="end">
          forward {lengths.fine(innerForward)}
        </text>
        <text class="loft-label" x={right + 10} y={bottom + (innerAft * scale) / 2 + 5}>
          aft {lengths.fine(innerAft)}
        </text>
        <text class="loft-end" x={(left + right) / 2} y={16} text-anchor="middle">
          PLANKING
        </text>
        <text class="loft-label" x={(left + right) / 2} y={(top + bottom) / 2 + 5} text-anchor="middle">
          stack
        </text>
        <text class="loft-end" x={(left + right) / 2} y={height - 6} text-anchor="middle">
          INSIDE OF THE BOAT
        </text>
      </svg>
      <figcaption>
        Outer wedge, stack and inner wedge at mark {steepest.mark}, call{' '}
        {readoutFigure(steepest.callDeg, plan.saw.readoutDeg)}°; edges in {lengths.unit}. Thick edge of the outer wedge:{' '}
        <strong>{plan.thickEdge}</strong>.
      </figcaption>
    </figure>
  );
}
