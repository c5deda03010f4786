import type { Plan } from '../../server/core/plan/plan.ts';
import type { WayDrawing } from '../../server/core/plan/wayDrawing.ts';
import { isFenced } from '../../server/core/text/leadingEndText.ts';
import { OuterHatch } from './OuterHatch.tsx';
import { refFace } from './refFace.ts';

const HEIGHT = 206;
const [STOCK_TOP, STOCK_FOOT] = [70, 132];
const FENCE = 12;
/** The half at the fence is drawn narrower: it carries no words. */
const AT_FENCE = 22;

/** From above, fed to the left as the mark strip reads: so the sawyer's left is below and his right above. */
export function FromAbove(props: { readonly plan: Plan; readonly drawing: WayDrawing; readonly width: number }) {
  const { plan, drawing, width } = props;
  const { leads, marks } = plan;
  const follows = leads === 'heel' ? 'head' : 'heel';
  const first = leads === 'heel' ? marks[0] : marks.at(-1);
  const blade = Math.round(width * 0.2);
  const [tip, end] = [blade + 30, width - 12];
  const face = refFace(plan);
  const isFenceBelow = drawing.fence === 'left';
  const cut = isFenceBelow ? STOCK_FOOT - AT_FENCE : STOCK_TOP + AT_FENCE;
  const words = isFenceBelow ? (STOCK_TOP + cut) / 2 : (cut + STOCK_FOOT) / 2;
  const fenceTop = isFenceBelow ? STOCK_FOOT : STOCK_TOP - FENCE;
  const feedY = isFenceBelow ? STOCK_TOP - 18 : STOCK_FOOT + 20;
  return (
    <figure>
      <svg
        width={width}
        height={HEIGHT}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="img"
        aria-label={`From above: the ${leads} end meets the blade first, the ${drawing.upEdge} edge is up, the ${face} is on the sawyer's ${drawing.fence}`}
      >
        <rect class="loft-thin" x={1} y={26} width={width - 2} height={150} />
        {isFenced(plan) && <rect class="loft-fence" x={14} y={fenceTop} width={width - 28} height={FENCE} />}
        <text class="loft-label" x={isFenced(plan) ? 18 : tip} y={isFenceBelow ? fenceTop + FENCE + 18 : fenceTop - 6}>
          {face}
        </text>
        <OuterHatch id="outer-from-above" />
        <rect class="loft-thin loft-inner" x={tip} y={STOCK_TOP} width={end - tip} height={STOCK_FOOT - STOCK_TOP} />
        <rect
          class="loft-thin"
          style={drawing.isOuterAtFence ? 'fill:url(#outer-from-above)' : ''}
          x={tip}
          y={isFenceBelow ? cut : STOCK_TOP}
          width={end - tip}
          height={AT_FENCE}
        />
        <path class="loft-cut" d={`M${tip} ${cut} H${end}`} />
        <path class="loft-blade" d={`M${blade - 14} ${cut} h28`} />
        <text class="loft-label" x={blade} y={isFenceBelow ? cut - 12 : cut + 24} text-anchor="middle">
          blade
        </text>
        <text class="loft-end loft-large" x={tip + 8} y={words + 7}>
          {leads.toUpperCase()}
        </text>
        <text class="loft-end loft-large" x={end - 8} y={words + 7} text-anchor="end">
          {follows.toUpperCase()}
        </text>
        <text x={(tip + end) / 2} y={words + 6} text-anchor="middle">
          {drawing.upEdge.toUpperCase()} EDGE UP
        </text>
        <path class="loft-arrow" d={`M${width * 0.74} ${feedY} H${width * 0.5} m12 -7 l-12 7 l12 7`} />
        <text x={width * 0.74 + 8} y={feedY + 6}>
          feed
        </text>
        <text class="loft-label" x={4} y={HEIGHT - 10}>
          tailer
        </text>
        <text class="loft-label" x={width - 4} y={HEIGHT - 10} text-anchor="end">
          ◂ sawyer, left hand below
        </text>
        <text class="loft-end" x={4} y={18}>
          FROM ABOVE
        </text>
      </svg>
      <figcaption>Mark {first?.mark} comes to the blade first.</figcaption>
    </figure>
  );
}
