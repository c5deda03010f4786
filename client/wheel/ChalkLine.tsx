/**
 * The coming tilt as a chalk line that slides with the wood toward the fixed blade. The tilt wanted now lies always in the
 * middle, so that a tenth of a degree is seen; left of the blade the tilt wanted and the tilt had lie end to end, because an
 * eye tells best of all whether two lines meet.
 */

import { useMemo, useRef } from 'preact/hooks';
import type { Plan } from '../../server/core/plan/plan.ts';
import { degFigure } from '../kit/figures/shownFigures.ts';
import type { RunBoard } from '../kit/link/useRunBoard.ts';
import { coordinate } from '../kit/page/coordinate.ts';
import { type Box, useBox } from '../kit/page/useBox.ts';
import { passedOf, widthOfFigure } from '../kit/plank/marksDrawnPassed.ts';
import { useFrames } from '../kit/plank/useFrames.ts';
import { type ChalkSheet, makeChalkSheet, type SheetMark } from './chalkSheet.ts';
import type { Pointed } from './pointer.ts';

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
  const sheet = useMemo(() => makeChalkSheet(board.setup, plan.saw, box), [board, plan, box]);
  const { width, height, bladeX, nowY, bandY, perDeg } = sheet;
  const grid = useRef<SVGGElement>(null);
  const degrees = useRef<SVGGElement>(null);
  const line = useRef<SVGGElement>(null);
  const band = useRef<SVGGElement>(null);
  const figures = useRef<SVGGElement>(null);
  const numbers = useRef<SVGGElement>(null);
  const passed = useRef(0);
  const had = useRef<SVGPathElement>(null);
  const thick = height * 0.028;
  const figure = height * 0.15;
  const number = (height - bandY) * 0.72;
  const label = height * 0.074;

  useFrames((nowMs) => {
    const { positionMm, tiltDeg, errorDeg } = props.pointedAt(nowMs);
    const x = coordinate(bladeX - positionMm * sheet.perMm);
    const y = coordinate(nowY + tiltDeg * perDeg);
    grid.current?.setAttribute('transform', `translate(0 ${y})`);
    degrees.current?.setAttribute('transform', `translate(0 ${y})`);
    line.current?.setAttribute('transform', `translate(${x} ${y})`);
    band.current?.setAttribute('transform', `translate(${x} 0)`);
    const at = bladeX - positionMm * sheet.perMm;
    passed.current = passedOf(
      sheet.marks.map((mark) => mark.x + at),
      bladeX,
      passed.current,
    );
    for (const [index, mark] of sheet.marks.entries()) {
      const isPassed = index < passed.current;
      const markX = mark.x + at;
      place(
        figures.current?.children[index],
        isPassed ? null : besideLine(sheet, mark, markX, nowY + tiltDeg * perDeg),
      );
      place(numbers.current?.children[index], beforeOrBehind(sheet, `${mark.mark}`, markX, isPassed));
    }
    for (const [index, deg] of sheet.wholeDegs.entries()) {
      const labelY = nowY + (tiltDeg - deg) * perDeg;
      // Neither cut off at an edge nor under the bar of the tilt that is wanted.
      const isFree = labelY > label && labelY < bandY - label && Math.abs(labelY - nowY) > label * 0.6 + thick;
      const text = degrees.current?.children[index]?.querySelector('text');
      text?.setAttribute('visibility', isFree ? 'visible' : 'hidden');
    }
    had.current?.setAttribute('visibility', errorDeg === null ? 'hidden' : 'visible');
    had.current?.setAttribute('transform', `translate(0 ${coordinate(hadY(sheet, errorDeg ?? 0, thick))})`);
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
        {sheet.marks.map(({ mark, x, y }) => (
          <g key={mark} transform={`translate(${x} ${y})`}>
            <circle r={thick * 0.95} />
          </g>
        ))}
      </g>
      <rect class="chalk-ground" width={bladeX} height={bandY} />
      <g ref={degrees}>
        {sheet.wholeDegs.map((deg) => (
          <g key={deg} class="chalk-degree" transform={`translate(0 ${coordinate(-deg * perDeg)})`}>
            <path d={`M${bladeX * 0.86} 0 H${bladeX}`} />
            <text x={bladeX * 0.82} y={height * 0.026} font-size={label} text-anchor="end" visibility="hidden">
              {degFigure(deg, 0)}°
            </text>
          </g>
        ))}
      </g>
      <rect class="chalk-ground" width={width} y={bandY} height={height - bandY} />
      <g ref={band} class="chalk-band">
        <path d={`M${-bladeX - 20} ${bandY + 4} H${endOf(sheet)} V${height + 10} H${-bladeX - 20} Z`} />
        {sheet.marks.map(({ mark, x }) => (
          <path key={mark} d={`M${x} ${bandY + 4} V${height}`} />
        ))}
      </g>
      <g ref={numbers} class="chalk-numbers">
        {sheet.marks.map(({ mark }) => (
          <text key={mark} y={height - (height - bandY) * 0.2} font-size={number} visibility="hidden">
            {mark}
          </text>
        ))}
      </g>
      <g ref={figures} class="chalk-figures">
        {sheet.marks.map(({ mark, figure: words }) => (
          <text key={mark} font-size={figure} visibility="hidden">
            {words}
          </text>
        ))}
      </g>
      <path class="chalk-wanted" d={`M${bladeX * 0.5} ${nowY} H${bladeX}`} stroke-width={thick * 1.5} />
      <path ref={had} class="chalk-had" d={`M0 0 H${bladeX * 0.48}`} stroke-width={thick * 1.5} visibility="hidden" />
      <path class="chalk-blade" d={`M${bladeX} 0 V${height}`} />
    </svg>
  );
}

interface Place {
  readonly x: number;
  readonly y?: number;
}

/** Null: not shown. What is not shown is not touched again. */
function place(text: Element | undefined, at: Place | null): void {
  if (text === undefined) return;
  const visibility = at === null ? 'hidden' : 'visible';
  if (text.getAttribute('visibility') !== visibility) text.setAttribute('visibility', visibility);
  if (at === null) return;
  text.setAttribute('x', coordinate(at.x));
  if (at.y !== undefined) text.setAttribute('y', coordinate(at.y));
}

/** A mark's figure beside its place on the line: in whole or not at all, right of the blade; at the sheet's edge where the line is off it. */
function besideLine({ height, width, bladeX, bandY }: ChalkSheet, mark: SheetMark, markX: number, squareY: number) {
  const size = height * 0.15;
  const x = Math.max(markX + height * 0.028, bladeX + 10);
  if (x + widthOfFigure(mark.figure, size) > width) return null;
  const y = squareY + mark.y + size * (mark.isRising ? 1.05 : -0.42);
  return { x, y: Math.min(bandY - size * 0.16, Math.max(size * 0.8, y)) };
}

/** A mark's number right of its line, and left of it once the line has passed the blade. */
function beforeOrBehind({ width, height, bladeX, bandY }: ChalkSheet, words: string, markX: number, isPassed: boolean) {
  const wide = widthOfFigure(words, (height - bandY) * 0.72);
  const x = isPassed ? markX - 8 - wide : Math.max(markX + 10, bladeX + 10);
  return x < 2 || x + wide > width ? null : { x };
}

/** Beyond the sheet it stays at its edge. */
function hadY({ nowY, bandY, perDeg }: ChalkSheet, errorDeg: number, thick: number): number {
  return Math.min(bandY - thick, Math.max(thick, nowY - errorDeg * perDeg));
}

const endOf = ({ marks, perMm }: ChalkSheet): number => (marks.at(-1)?.x ?? 0) + 20 * perMm;
