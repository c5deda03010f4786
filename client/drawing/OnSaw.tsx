import type { Plan } from '../../server/core/plan/plan.ts';
import type { Quad, Spot, WayDrawing } from '../../server/core/plan/wayDrawing.ts';
import type { PlannedMark } from '../../server/core/rip/plannedMark.ts';
import { isFenced } from '../../server/core/text/leadingEndText.ts';
import { readoutFigure } from '../kit/figures/shownFigures.ts';
import { coordinate } from '../kit/page/coordinate.ts';
import { OuterHatch } from './OuterHatch.tsx';
import { refFace } from './refFace.ts';

const TOP_PX = 78;
const BELOW_PX = 46;
const FENCE_PX = 14;

/** The stock on the saw, seen along the feed: the kerf at its true angle. */
export function OnSaw(props: {
  readonly plan: Plan;
  readonly drawing: WayDrawing;
  readonly at: PlannedMark;
  readonly width: number;
  readonly scale: number;
}) {
  const { plan, drawing, at, width, scale } = props;
  const away = drawing.fence === 'left' ? 1 : -1;
  const high = plan.frame.sidingMm * scale;
  const thick = plan.stock.thicknessMm * scale;
  const fromX = width / 2 - (away * thick) / 2;
  const table = TOP_PX + high * 1.1;
  const height = table + BELOW_PX;
  const point = ([x, y]: Spot): string => `${coordinate(fromX + x * scale)} ${coordinate(table - y * scale)}`;
  const shape = (quad: Quad): string => `M${quad.map(point).join(' L')} Z`;
  const [foot, top] = drawing.onSaw.blade;
  const face = refFace(plan);
  const [fenceHalf, awayHalf] = drawing.isOuterAtFence ? ['OUTER', 'INNER'] : ['INNER', 'OUTER'];
  const bladeX = fromX + top[0] * scale;
  const anchors = away > 0 ? (['end', 'start'] as const) : (['start', 'end'] as const);
  const labelY = table - high * 0.35;
  return (
    <figure style={{ width: `${width}px` }}>
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`On the saw: ${drawing.upEdge} edge up, the blade's top leans to the ${drawing.leans}, ${fenceHalf} at the ${face}`}
      >
        <OuterHatch id="outer-on-saw" />
        <text class="loft-end" x={2} y={18}>
          ON THE SAW
        </text>
        <path class="loft-table" d={`M4 ${table} H${width - 4}`} />
        {isFenced(plan) && (
          <rect
            class="loft-fence"
            x={away > 0 ? fromX - FENCE_PX : fromX}
            y={table - high * 0.8}
            width={FENCE_PX}
            height={high * 0.8}
          />
        )}
        <path class="loft-thin loft-inner" d={shape(drawing.onSaw.inner)} />
        <path class="loft-thin" style="fill:url(#outer-on-saw)" d={shape(drawing.onSaw.outer)} />
        <path class="loft-blade" d={`M${point(foot)} L${point(top)}`} />
        <text x={bladeX + away * 8} y={TOP_PX - 14} text-anchor={anchors[1]}>
          top leans {drawing.leans}
        </text>
        <text class="loft-large loft-end" x={fromX - away * (FENCE_PX + 8)} y={labelY} text-anchor={anchors[0]}>
          {fenceHalf}
        </text>
        {`at the ${face}`.split(/ (?=face)/).map((words, line) => (
          <text
            key={words}
            class="loft-label"
            x={fromX - away * (FENCE_PX + 8)}
            y={labelY + 19 + 17 * line}
            text-anchor={anchors[0]}
          >
            {words}
          </text>
        ))}
        <text class="loft-large loft-end" x={fromX + away * (thick + 10)} y={labelY} text-anchor={anchors[1]}>
          {awayHalf}
        </text>
        <text x={fromX - away * (FENCE_PX + 8)} y={table - high + 5} text-anchor={anchors[0]}>
          {drawing.upEdge.toUpperCase()} UP
        </text>
        <text class="loft-label" x={width / 2} y={table + 36} text-anchor="middle">
          {drawing.lowEdge} edge on the table
        </text>
      </svg>
      <figcaption>
        As the sawyer sees it along the feed, at mark {at.mark}: the readout at{' '}
        {readoutFigure(at.callDeg, plan.saw.readoutDeg)}°.
      </figcaption>
    </figure>
  );
}
