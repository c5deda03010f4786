/** The plank with its marks, sliding toward a fixed blade line. Drawn once a plan; moved by the frame, not drawn again. */
import { useRef } from 'preact/hooks';
import type { Station } from '../../server/core/run/state.ts';
import { readoutFigure } from './figures.ts';
import type { RunLink } from './runLink.ts';
import { useCertainty } from './useCertainty.ts';
import { useFrames } from './useFrames.ts';
import type { RunBoard } from './useRunBoard.ts';

/** Drawing units: the board's face is 1000 wide; the blade stands at 180, so that most of it is what is coming. */
const WIDTH = 1000;
const BLADE_AT = 150;

export function Plank(props: {
  readonly board: RunBoard;
  readonly readoutDeg: number;
  readonly link: RunLink;
  /** Height of the drawing in units of its width / 1000. */
  readonly height: number;
  readonly figureSize: number;
}) {
  const { board, height, figureSize } = props;
  const { stations } = board;
  const sliding = useRef<SVGGElement>(null);
  const shown = useRef('');
  const perMm = scaleFor(stations, figureSize);
  const last = stations.at(-1)?.positionMm ?? 0;
  const certainty = useCertainty(props.link, board);
  const isSure = certainty === 'known';

  useFrames((nowMs) => {
    const to = `translate(${(BLADE_AT - board.shownAt(nowMs).positionMm * perMm).toFixed(2)} 0)`;
    if (to !== shown.current) sliding.current?.setAttribute('transform', to);
    shown.current = to;
  });

  const top = height * 0.27;
  const bottom = height * 0.97;
  return (
    <svg
      class="plank"
      viewBox={`0 0 ${WIDTH} ${height}`}
      preserveAspectRatio="xMinYMid meet"
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
      {!isSure && (
        <text class="plank-guess" x={BLADE_AT - 12} y={top - height * 0.05} font-size={height * 0.2} text-anchor="end">
          {certainty}
        </text>
      )}
      <path class={isSure ? 'plank-blade' : 'plank-blade plank-unsure'} d={`M${BLADE_AT} 0 V${height}`} />
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
