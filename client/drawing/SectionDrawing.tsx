/** The frame's own shape, where a pattern was taken or the offsets give it: moulded edge and inner edge, looking along the boat, marks on the edge. */
import { line } from 'd3-shape';
import type { Plan } from '../../server/core/plan/plan.ts';
import { useWidth } from './useWidth.ts';

interface Point {
  readonly y: number;
  readonly z: number;
}

/** How far out of the moulded edge a mark's number stands, in mouldings. */
const LABEL_OUT = 0.62;

export function SectionDrawing({ plan }: { readonly plan: Plan }) {
  const [box, width] = useWidth(420);
  const marks = plan.marks.flatMap(({ mark, yMm, zMm }) =>
    yMm === null || zMm === null ? [] : [{ mark, y: yMm, z: zMm }],
  );
  if (marks.length < 3) return null;
  const side = plan.frame.side === 'starboard' ? 1 : -1;
  const edge = plan.offsets?.edge.map(({ yMm, zMm }) => ({ y: yMm, z: zMm })) ?? marks;
  const within = withoutCrossings(edge, inboard(edge, plan.frame.mouldingMm), plan.frame.mouldingMm);
  const opposite = inboard(marks, plan.frame.mouldingMm);
  const outward = (mark: Point, index: number, share: number): Point => {
    const from = opposite[index] ?? mark;
    return { y: mark.y + (mark.y - from.y) * share, z: mark.z + (mark.z - from.z) * share };
  };
  const all = [...edge, ...within, ...marks.map((mark, index) => outward(mark, index, LABEL_OUT))];
  const ys = all.map((point) => point.y);
  const zs = all.map((point) => point.z);
  const spanY = Math.max(...ys) - Math.min(0, ...ys);
  const spanZ = Math.max(...zs) - Math.min(...zs);
  const height = Math.min(520, Math.max(260, (width - 90) * (spanZ / spanY) + 70));
  const scale = Math.min((width - 90) / spanY, (height - 70) / spanZ);
  const middle = side === 1 ? 30 : width - 30;
  const sx = (point: Point): number => middle + side * (point.y - Math.min(0, ...ys)) * scale;
  const sz = (point: Point): number => height - 36 - (point.z - Math.min(...zs)) * scale;
  const base = sz({ y: 0, z: Math.min(...edge.map(({ z }) => z)) });
  const path = line<Point>().x(sx).y(sz);
  const first = marks[0];
  const last = marks.at(-1);
  const every = Math.ceil(marks.length / 14);

  return (
    <div ref={box} class="drawing">
      <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label="Shape of the frame">
        <path class="loft-centre" d={`M${middle} 8 V${height - 8}`} />
        <path class="loft-base" d={`M8 ${base} H${width - 8}`} />
        <path
          class="loft-fill"
          d={`${path(edge) ?? ''} L${[...within]
            .reverse()
            .map((p) => `${sx(p)} ${sz(p)}`)
            .join(' L')} Z`}
        />
        <path class="loft-thin" d={path(within) ?? ''} />
        <path class="loft-curve" d={path(edge) ?? ''} />
        {marks.map((mark, index) => {
          const from = opposite[index] ?? mark;
          const out = outward(mark, index, 0.28);
          const label = outward(mark, index, LABEL_OUT);
          const isLabelled = index % every === 0 || index === marks.length - 1;
          return (
            <g key={mark.mark}>
              <path class="loft-thin" d={`M${sx(from)} ${sz(from)} L${sx(out)} ${sz(out)}`} />
              {isLabelled && (
                <text class="loft-label" x={sx(label)} y={sz(label) + 5} text-anchor="middle">
                  {mark.mark}
                </text>
              )}
            </g>
          );
        })}
        {first !== undefined && (
          <text class="loft-end" x={sx(first) + side * 14} y={height - 10} text-anchor={side === 1 ? 'start' : 'end'}>
            HEEL
          </text>
        )}
        {last !== undefined && (
          <text class="loft-end" x={sx(last)} y={Math.max(14, sz(last) - 12)} text-anchor="middle">
            HEAD
          </text>
        )}
      </svg>
    </div>
  );
}

/** The inner edge: square off the moulded edge by the moulding, toward the middle of the boat. */
function inboard(edge: readonly Point[], mouldingMm: number): readonly Point[] {
  return edge.map((point, index) => {
    const before = edge[Math.max(0, index - 1)] ?? point;
    const after = edge[Math.min(edge.length - 1, index + 1)] ?? point;
    const dy = after.y - before.y;
    const dz = after.z - before.z;
    const size = Math.hypot(dy, dz) || 1;
    return { y: point.y - (dz / size) * mouldingMm, z: point.z + (dy / size) * mouldingMm };
  });
}

/** Inside a knuckle the two inner edges meet before they get there: what lies nearer to the moulded edge than the moulding is left out. */
function withoutCrossings(edge: readonly Point[], inner: readonly Point[], mouldingMm: number): readonly Point[] {
  return inner.filter((point) => edge.every(({ y, z }) => Math.hypot(point.y - y, point.z - z) > 0.985 * mouldingMm));
}
