/** The fastest feed from mark to mark over the girth, beside the crew's own. */
import { scaleLinear } from 'd3-scale';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { PaceLimit, RoutinePace } from '../../../server/core/routine/limits.ts';
import { spread } from '../../drawing/spread.ts';
import { useWidth } from '../../drawing/useWidth.ts';

const LEFT = 40;
const RIGHT = 18;
const TOP = 26;
const BOTTOM = 40;
const HEIGHT = 230;
/** Feeds far above the crew's own are all alike. */
const SHOWN_UP_TO = 2.2;
const HEADROOM = 1.15;

const SHORT: Readonly<Record<PaceLimit, string>> = {
  words: 'words',
  reaction: 'reaction',
  wheel: 'wheel',
  twist: 'twist',
  saw: 'saw',
};

export function PaceDrawing(props: {
  readonly plan: Plan;
  /** In the order of the run. */
  readonly limits: RoutinePace['intervals'];
  readonly feed: (mPerMin: number) => string;
}) {
  const { plan, limits, feed } = props;
  const [box, width] = useWidth(560);
  const own = plan.crew.feedMPerMin;
  const greatest = Math.max(own, ...limits.map(({ limitMPerMin }) => limitMPerMin ?? Number.POSITIVE_INFINITY));
  const most = Math.min(own * SHOWN_UP_TO, greatest * HEADROOM);
  const girthAt = new Map(plan.marks.map(({ mark, girthMm }) => [mark, girthMm]));
  const x = scaleLinear([plan.marks[0]?.girthMm ?? 0, plan.marks.at(-1)?.girthMm ?? 1], [LEFT, width - RIGHT]);
  const y = scaleLinear([0, most], [HEIGHT - BOTTOM, TOP]);
  const steps = limits.map(({ limitMPerMin, limitedBy }, i) => {
    const { fromMark = 0, toMark = 0 } = plan.pace.intervals[i] ?? {};
    const xs = [x(girthAt.get(fromMark) ?? 0), x(girthAt.get(toMark) ?? 0)].sort((a, b) => a - b);
    const [left = 0, right = 0] = xs;
    const limit = limitMPerMin ?? Number.POSITIVE_INFINITY;
    return { key: toMark, left, right, top: y(Math.min(most, limit)), isSlow: limit < own, limit, limitedBy };
  });
  const slowest = steps.reduce<(typeof steps)[number] | null>(
    (a, b) => (a === null || b.limit < a.limit ? b : a),
    null,
  );
  const isNumbered = spread(
    plan.marks.map(({ girthMm }) => x(girthMm)),
    26,
  );
  return (
    <div ref={box} class="drawing">
      <svg
        width={width}
        height={HEIGHT}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="img"
        aria-label="Fastest feed from mark to mark"
      >
        <path class="loft-base" d={`M${LEFT} ${y(0)} H${width - RIGHT}`} />
        {steps.map(({ key, left, right, top, isSlow }) => (
          <rect
            key={key}
            class={isSlow ? 'pace-step pace-slow' : 'pace-step'}
            x={left}
            y={top}
            width={right - left}
            height={y(0) - top}
          />
        ))}
        {steps.map(({ key, left, right, top }) => (
          <path key={key} class="loft-curve" d={`M${left} ${top} H${right}`} />
        ))}
        <path class="pace-own" d={`M${LEFT} ${y(own)} H${width - RIGHT}`} />
        <text class="loft-label" x={width - RIGHT} y={TOP - 10} text-anchor="end">
          - - crew {feed(own)}
        </text>
        {slowest !== null && Number.isFinite(slowest.limit) && slowest.limitedBy !== null && (
          <text
            class="loft-call"
            x={Math.min(width - 80, Math.max(LEFT + 50, (slowest.left + slowest.right) / 2))}
            y={Math.min(y(0) - 8, underIt(slowest.top, y(own)))}
            text-anchor="middle"
          >
            {feed(slowest.limit)}, {SHORT[slowest.limitedBy]}
          </text>
        )}
        {plan.marks.map(({ mark, girthMm }, i) =>
          isNumbered[i] === true ? (
            <text key={mark} class="loft-label" x={x(girthMm)} y={y(0) + 18} text-anchor="middle">
              {mark}
            </text>
          ) : null,
        )}
        <text class="loft-label" x={6} y={TOP - 10}>
          fastest feed
        </text>
      </svg>
    </div>
  );
}

/** Under the step, and under the crew's own line where that would go through the words. */
const underIt = (stepY: number, ownY: number): number => {
  const at = stepY + 20;
  return ownY > at - 18 && ownY < at + 6 ? ownY + 20 : at;
};
