/** The wedge at its true angle: a base, and the blade's line over it. Grows from the left, as on a bevel board. */
import { degFigure } from '../kit/figures/shownFigures.ts';

const WIDTH = 400;
const HEIGHT = 190;

export function Wedge({ deg }: { readonly deg: number }) {
  const size = Math.min(89, Math.abs(deg));
  const slope = Math.tan((size * Math.PI) / 180);
  const run = Math.min(WIDTH - 16, slope === 0 ? WIDTH : (HEIGHT - 24) / slope);
  const rise = run * slope;
  const base = deg >= 0 ? HEIGHT - 12 : 12;
  const tip = deg >= 0 ? base - rise : base + rise;
  const left = (WIDTH - run) / 2;
  return (
    <svg
      class="wedge"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`Wedge of ${degFigure(size, 1)} degrees`}
    >
      <path class="wedge-face" d={`M${left} ${base} H${left + run} V${tip} Z`} />
      <path class="wedge-line" d={`M8 ${base} H${WIDTH - 8} M${left} ${base} L${left + run} ${tip}`} />
    </svg>
  );
}
