import type { Plan } from '../../server/core/plan/plan.ts';
import type { Quad, Spot, WayDrawing } from '../../server/core/plan/wayDrawing.ts';
import { lengthsIn } from '../kit/figures/shownFigures.ts';
import { coordinate } from '../kit/page/coordinate.ts';
import { OuterHatch } from './OuterHatch.tsx';

const TOP_PX = 78;
const BELOW_PX = 46;

/** The halves in the frame, seen from where the sawyer stood: they have slid past each other, and the stack is between. */
export function InFrame(props: {
  readonly plan: Plan;
  readonly drawing: WayDrawing;
  readonly width: number;
  readonly scale: number;
}) {
  const { plan, drawing, width, scale } = props;
  const { outer, inner, stack } = drawing.inFrame;
  const lengths = lengthsIn(plan.notation);
  const xs = [...outer, ...inner].map(([x]) => x);
  const [least, most] = [Math.min(...xs), Math.max(...xs)];
  const fromX = width / 2 - ((least + most) / 2) * scale;
  const high = plan.frame.sidingMm * scale;
  const foot = TOP_PX + high * 1.1;
  const height = foot + BELOW_PX;
  const px = (x: number): number => fromX + x * scale;
  const point = ([x, y]: Spot): string => `${coordinate(px(x))} ${coordinate(foot - y * scale)}`;
  const shape = (quad: Quad): string => `M${quad.map(point).join(' L')} Z`;
  const middleOf = (quad: Quad): number => (Math.min(...quad.map(([x]) => x)) + Math.max(...quad.map(([x]) => x))) / 2;
  const plankingX = drawing.planking === 'right' ? px(most) + 30 : px(least) - 30;
  const insideX = drawing.planking === 'right' ? px(least) - 30 : px(most) + 30;
  const up = (text: string, x: number) => (
    <text class="loft-end" transform={`translate(${x} ${foot - high / 2}) rotate(-90)`} text-anchor="middle" y={5}>
      {text}
    </text>
  );
  const plyPx = plan.stack.laminationMm * scale;
  const [stackLeft, stackRight] = [px(Math.min(...stack.map(([x]) => x))), px(Math.max(...stack.map(([x]) => x)))];
  return (
    <figure style={{ width: `${width}px` }}>
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`In the frame: the outer wedge at the planking, on the ${drawing.planking}; ${drawing.upEdge} edge up as before`}
      >
        <OuterHatch id="outer-in-frame" />
        <text class="loft-end" x={2} y={18}>
          IN THE FRAME
        </text>
        {Array.from({ length: Math.max(0, plan.stack.plies - 1) }, (_, ply) => (
          <path key={ply} class="loft-grid" d={`M${stackLeft + (ply + 1) * plyPx} ${foot - high} V${foot}`} />
        ))}
        <rect class="loft-thin" x={stackLeft} y={foot - high} width={stackRight - stackLeft} height={high} />
        <path class="loft-thin loft-inner" d={shape(inner)} />
        <path class="loft-thin" style="fill:url(#outer-in-frame)" d={shape(outer)} />
        <text class="loft-end loft-large" x={px(middleOf(outer))} y={TOP_PX - 20} text-anchor="middle">
          OUTER
        </text>
        <text class="loft-end loft-large" x={px(middleOf(inner))} y={TOP_PX - 20} text-anchor="middle">
          INNER
        </text>
        <text x={px(middleOf(outer))} y={foot - high - 7} text-anchor="middle">
          {lengths.fine(drawing.edgesMm.outer.up)}
        </text>
        <text x={px(middleOf(inner))} y={foot - high - 7} text-anchor="middle">
          {lengths.fine(drawing.edgesMm.inner.up)}
        </text>
        <text x={px(middleOf(outer))} y={foot + 20} text-anchor="middle">
          {lengths.fine(drawing.edgesMm.outer.low)}
        </text>
        <text x={px(middleOf(inner))} y={foot + 20} text-anchor="middle">
          {lengths.fine(drawing.edgesMm.inner.low)}
        </text>
        <text x={(stackLeft + stackRight) / 2} y={foot - high - 7} text-anchor="middle">
          {drawing.upEdge.toUpperCase()}
        </text>
        <text class="loft-label" x={(stackLeft + stackRight) / 2} y={foot - high / 2 + 5} text-anchor="middle">
          stack
        </text>
        <text x={(stackLeft + stackRight) / 2} y={foot + 20} text-anchor="middle">
          {drawing.lowEdge.toUpperCase()}
        </text>
        {up('PLANKING', plankingX)}
        {up('INSIDE', insideX)}
      </svg>
      <figcaption>
        The halves have changed places and nothing is turned: each only slid past the other. Edges{lengths.inHead}.
      </figcaption>
    </figure>
  );
}
