/** The plank with its marks, sliding toward a fixed blade line. Moved by the frame; drawn again only when a mark comes or passes. */

import { useMemo, useRef, useState } from 'preact/hooks';
import type { Station } from '../../../server/core/run/engine/state.ts';
import { readoutFigure } from '../figures/shownFigures.ts';
import { useCertainty } from '../figures/useCertainty.ts';
import type { RunLink } from '../link/runLink.ts';
import type { RunBoard } from '../link/useRunBoard.ts';
import { coordinate } from '../page/coordinate.ts';
import { useBox } from '../page/useBox.ts';
import { CLEAR_OF_BLADE, passedOf, widthOfFigure } from './marksDrawnPassed.ts';
import { useFrames } from './useFrames.ts';

/** Where the blade stands, so that most of it is what is coming. In units of which the drawing has `height` from top to bottom. */
const BLADE_AT = 150;

export function Plank(props: {
  readonly board: RunBoard;
  readonly readoutDeg: number;
  readonly link: RunLink;
  readonly height: number;
  readonly figureSize: number;
}) {
  const { board, readoutDeg, height, figureSize } = props;
  const { stations } = board;
  const [element, box] = useBox();
  const width = box === null ? 1000 : (height * box.width) / box.height;
  const sliding = useRef<SVGGElement>(null);
  const shown = useRef('');
  const perMm = scaleFor(stations, figureSize);
  const figures = useMemo(
    () => stations.map(({ callDeg }) => readoutFigure(callDeg, readoutDeg)),
    [stations, readoutDeg],
  );
  // Where each mark's words end: those that do not fit in whole yet would be read for others.
  const ends = stations.map(
    ({ positionMm }, index) => positionMm * perMm + CLEAR_OF_BLADE + widthOfFigure(figures[index] ?? '', figureSize),
  );
  const [passed, setPassed] = useState(0);
  const [come, setCome] = useState(stations.length);
  const certainty = useCertainty(props.link, board);
  const isSure = certainty === 'known';

  useFrames((nowMs) => {
    const slidMm = board.shownAt(nowMs).positionMm;
    const to = `translate(${coordinate(BLADE_AT - slidMm * perMm)} 0)`;
    if (to !== shown.current) sliding.current?.setAttribute('transform', to);
    shown.current = to;
    setPassed((before) =>
      passedOf(
        stations.map(({ positionMm }) => positionMm * perMm),
        slidMm * perMm,
        before,
      ),
    );
    setCome(ends.filter((end) => end <= width - BLADE_AT + slidMm * perMm).length);
  });

  const top = height * 0.27;
  const bottom = height * 0.97;
  const middle = (top + bottom) / 2;
  return (
    <div class="plank" ref={element}>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label="The plank and its marks, coming to the blade">
        <g ref={sliding} transform={`translate(${BLADE_AT} 0)`}>
          <path class="plank-edge" d={`M${-40 * 2} ${top} H${(ends.at(-1) ?? 0) + 10} V${bottom} H${-80} Z`} />
          {stations.map(({ mark, positionMm }, index) => {
            const isPassed = index < passed;
            return (
              <g key={mark} transform={`translate(${positionMm * perMm} 0)`}>
                <path class="plank-mark" d={`M0 ${top} V${bottom}`} />
                {index < come && (
                  <text
                    class={isPassed ? 'plank-number plank-passed' : 'plank-number'}
                    x={isPassed ? -8 : CLEAR_OF_BLADE}
                    y={top - height * 0.05}
                    font-size={height * 0.26}
                    text-anchor={isPassed ? 'end' : 'start'}
                  >
                    {mark}
                  </text>
                )}
                {index < come && !isPassed && (
                  <text class="plank-figure" x={CLEAR_OF_BLADE} y={middle + figureSize * 0.35} font-size={figureSize}>
                    {figures[index]}
                  </text>
                )}
              </g>
            );
          })}
        </g>
        {!isSure && (
          <text
            class="plank-guess"
            x={BLADE_AT - 14}
            y={middle + height * 0.07}
            font-size={height * 0.2}
            text-anchor="end"
          >
            {certainty}
          </text>
        )}
        <path class={isSure ? 'plank-blade' : 'plank-blade plank-unsure'} d={`M${BLADE_AT} 0 V${height}`} />
      </svg>
    </div>
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
