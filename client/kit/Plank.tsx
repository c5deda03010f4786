/** The plank with its marks, sliding toward a fixed blade line. Drawn once a plan; moved by the frame, not drawn again. */
import { useEffect, useRef } from 'preact/hooks';
import type { Station } from '../../server/core/run/state.ts';
import { readoutFigure } from './figures.ts';
import type { PlankMotion } from './plankMotion.ts';
import type { RunLink } from './runLink.ts';
import { useGuide } from './useRunBoard.ts';

/** Drawing units: the board's face is 1000 wide; the blade stands at 180, so that most of it is what is coming. */
const WIDTH = 1000;
const BLADE_AT = 150;
/** From one standard deviation of this on, the place of the plank is a guess, and is said to be one. */
const GUESS_MM = 10;

export function Plank(props: {
  readonly stations: readonly Station[];
  readonly readoutDeg: number;
  readonly motion: PlankMotion;
  readonly link: RunLink;
  /** Height of the drawing in units of its width / 1000. */
  readonly height: number;
  readonly figureSize: number;
}) {
  const { stations, motion, height, figureSize } = props;
  const sliding = useRef<SVGGElement>(null);
  const perMm = scaleFor(stations, figureSize);
  const last = stations.at(-1)?.positionMm ?? 0;
  const isGuess =
    useGuide(props.link, (guide) => guide.uncertaintyMm !== null && guide.uncertaintyMm > GUESS_MM) ?? false;

  useEffect(() => {
    let shown = '';
    let frame = requestAnimationFrame(function slide(nowMs) {
      const to = `translate(${(BLADE_AT - motion.at(nowMs) * perMm).toFixed(1)} 0)`;
      if (to !== shown) sliding.current?.setAttribute('transform', to);
      shown = to;
      frame = requestAnimationFrame(slide);
    });
    return () => cancelAnimationFrame(frame);
  }, [motion, perMm]);

  const top = height * 0.27;
  const bottom = height * 0.97;
  return (
    <svg
      class="plank"
      viewBox={`0 0 ${WIDTH} ${height}`}
      role="img"
      aria-label="The plank and its marks, coming to the blade"
    >
      <g ref={sliding} transform={`translate(${BLADE_AT} 0)`}>
        <path class="plank-edge" d={`M${-40 * 2} ${top} H${last * perMm + 60} V${bottom} H${-80} Z`} />
        {stations.map((station) => (
          <g key={station.mark} transform={`translate(${station.positionMm * perMm} 0)`}>
            <path class="plank-mark" d={`M0 ${top} V${bottom}`} />
            <text class="plank-number" x={8} y={top - height * 0.05} font-size={height * 0.26}>
              {station.mark}
            </text>
            <text class="plank-figure" x={10} y={(top + bottom) / 2 + figureSize * 0.35} font-size={figureSize}>
              {readoutFigure(station.callDeg, props.readoutDeg)}
            </text>
          </g>
        ))}
      </g>
      {isGuess && (
        <text class="plank-guess" x={BLADE_AT - 12} y={top - height * 0.05} font-size={height * 0.2} text-anchor="end">
          guess
        </text>
      )}
      <path class={isGuess ? 'plank-blade plank-unsure' : 'plank-blade'} d={`M${BLADE_AT} 0 V${height}`} />
    </svg>
  );
}

/** Far enough apart for the figures of neighbouring marks, by the closest pair but for a few that lie too close to draw. */
function scaleFor(stations: readonly Station[], figureSize: number): number {
  const gaps = stations
    .slice(1)
    .map((station, index) => station.positionMm - (stations[index]?.positionMm ?? 0))
    .sort((a, b) => a - b);
  const gap = gaps[Math.floor(gaps.length * 0.1)] ?? 100;
  return (figureSize * 2.35) / gap;
}
