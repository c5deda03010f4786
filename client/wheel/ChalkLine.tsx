/**
 * The coming tilt as a chalk line that slides with the wood toward the fixed blade. The tilt wanted now lies always in the
 * middle, so that a tenth of a degree is seen; left of the blade the tilt wanted and the tilt had lie end to end, because an
 * eye tells best of all whether two lines meet.
 */
import { useMemo, useRef } from 'preact/hooks';
import type { Plan } from '../../server/core/plan.ts';
import { degFigure, readoutFigure } from '../kit/figures.ts';
import { useFrames } from '../kit/useFrames.ts';
import type { RunBoard } from '../kit/useRunBoard.ts';
import { type ChalkSheet, makeChalkSheet } from './chalkSheet.ts';
import type { Pointed } from './pointer.ts';
import { type Box, useBox } from './useBox.ts';

interface ChalkLineParts {
  readonly board: RunBoard;
  readonly plan: Plan;
  /** False where the place is guessed or old: then the line is drawn broken. */
  readonly isSure: boolean;
  readonly pointedAt: (nowMs: number) => Pointed;
}

export function ChalkLine(props: ChalkLineParts) {
  const [element, box] = useBox();
  return (
    <div ref={element} class={props.isSure ? 'chalk' : 'chalk chalk-unsure'}>
      {box !== null && <Sheet {...props} box={box} />}
    </div>
  );
}

function Sheet(props: ChalkLineParts & { readonly box: Box }) {
  const { board, plan, box } = props;
  const { readoutTable, readoutDeg } = plan.saw;
  const sheet = useMemo(() => makeChalkSheet(board.setup, readoutTable, box), [board, readoutTable, box]);
  const { width, height, bladeX, nowY, bandY, perDeg } = sheet;
  const grid = useRef<SVGGElement>(null);
  const degrees = useRef<SVGGElement>(null);
  const line = useRef<SVGGElement>(null);
  const band = useRef<SVGGElement>(null);
  const had = useRef<SVGPathElement>(null);
  const thick = height * 0.028;
  const figure = height * 0.15;

  useFrames((nowMs) => {
    const { positionMm, tiltDeg, errorDeg } = props.pointedAt(nowMs);
    const x = (bladeX - positionMm * sheet.perMm).toFixed(2);
    const y = (nowY + tiltDeg * perDeg).toFixed(2);
    grid.current?.setAttribute('transform', `translate(0 ${y})`);
    degrees.current?.setAttribute('transform', `translate(0 ${y})`);
    line.current?.setAttribute('transform', `translate(${x} ${y})`);
    band.current?.setAttribute('transform', `translate(${x} 0)`);
    had.current?.setAttribute('visibility', errorDeg === null ? 'hidden' : 'visible');
    had.current?.setAttribute('transform', `translate(0 ${hadY(sheet, errorDeg ?? 0, thick).toFixed(2)})`);
  });

  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label="The tilt that is coming"
    >
      <g ref={grid} class="chalk-grid">
        {sheet.wholeDegs.map((deg) => (
          <path key={deg} d={`M${bladeX} ${-deg * perDeg} H${width}`} />
        ))}
      </g>
      <g ref={line} class="chalk-coming">
        <path class="chalk-line" d={sheet.line} stroke-width={thick} />
        {sheet.marks.map(({ mark, callDeg, x, y, isRising }) => (
          <g key={mark} transform={`translate(${x} ${y})`}>
            <circle r={thick * 0.95} />
            <text x={thick} y={isRising ? figure * 1.05 : -figure * 0.42} font-size={figure}>
              {readoutFigure(callDeg, readoutDeg)}
            </text>
          </g>
        ))}
      </g>
      <rect class="chalk-ground" width={bladeX} height={bandY} />
      <g ref={degrees}>
        {sheet.wholeDegs.map((deg) => (
          <g key={deg} class="chalk-degree" transform={`translate(0 ${(-deg * perDeg).toFixed(2)})`}>
            <path d={`M${bladeX * 0.86} 0 H${bladeX}`} />
            <text x={bladeX * 0.82} y={height * 0.026} font-size={height * 0.074} text-anchor="end">
              {degFigure(deg, 0)}°
            </text>
          </g>
        ))}
      </g>
      <rect class="chalk-ground" width={width} y={bandY} height={height - bandY} />
      <g ref={band} class="chalk-band">
        <path d={`M${-bladeX - 20} ${bandY + 4} H${endOf(sheet)} V${height + 10} H${-bladeX - 20} Z`} />
        {sheet.marks.map(({ mark, x }) => (
          <g key={mark} transform={`translate(${x} 0)`}>
            <path d={`M0 ${bandY + 4} V${height}`} />
            <text x={10} y={height - (height - bandY) * 0.2} font-size={(height - bandY) * 0.72}>
              {mark}
            </text>
          </g>
        ))}
      </g>
      <path class="chalk-wanted" d={`M${bladeX * 0.5} ${nowY} H${bladeX}`} stroke-width={thick * 1.5} />
      <path ref={had} class="chalk-had" d={`M0 0 H${bladeX * 0.48}`} stroke-width={thick * 1.5} visibility="hidden" />
      <path class="chalk-blade" d={`M${bladeX} 0 V${height}`} />
    </svg>
  );
}

/** Beyond the sheet it stays at its edge. */
function hadY({ nowY, bandY, perDeg }: ChalkSheet, errorDeg: number, thick: number): number {
  return Math.min(bandY - thick, Math.max(thick, nowY - errorDeg * perDeg));
}

const endOf = ({ marks, perMm }: ChalkSheet): number => (marks.at(-1)?.x ?? 0) + 20 * perMm;
