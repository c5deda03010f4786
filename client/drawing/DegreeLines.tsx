import { degFigure } from '../kit/figures/shownFigures.ts';

/** A line and its figure for each degree of a drawing; square itself is the stronger one. */
export function DegreeLines(props: {
  readonly degs: readonly number[];
  readonly yOf: (deg: number) => number;
  readonly left: number;
  readonly right: number;
}) {
  const { degs, yOf, left, right } = props;
  return (
    <>
      {degs.map((deg) => (
        <g key={deg}>
          <path class={deg === 0 ? 'loft-base' : 'loft-grid'} d={`M${left} ${yOf(deg)} H${right}`} />
          <text class="loft-label" x={left - 8} y={yOf(deg) + 5} text-anchor="end">
            {degFigure(deg, Number.isInteger(deg) ? 0 : 1)}°
          </text>
        </g>
      ))}
    </>
  );
}
