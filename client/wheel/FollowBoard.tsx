/** Following: the tilt for the wood at the blade now, how far off the blade is, and the tilt that is coming as a chalk line. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import { toReadoutStep } from '../../server/core/figures/rounding.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { tiltAt } from '../../server/core/run/engine/profile.ts';
import { shownDeg } from '../../server/core/saw/readout.ts';
import { turnWord } from '../../server/core/words/turnWord.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { readoutFigure } from '../kit/figures/shownFigures.ts';
import { StillFigure } from '../kit/figures/steadyFigure.ts';
import { useCertainty } from '../kit/figures/useCertainty.ts';
import type { RunLink } from '../kit/link/runLink.ts';
import type { RunBoard } from '../kit/link/useRunBoard.ts';
import { useFrames } from '../kit/plank/useFrames.ts';
import { ChalkLine } from './ChalkLine.tsx';
import { FollowSign, type Sign } from './FollowSign.tsx';
import { Pointer } from './pointer.ts';

/** The figure follows the readout's steps, but stands so long that it can be read (assumption: a third of a second). */
const FIGURE = { margin: 0.1, holdMs: 300, round: 'nearest' } as const;
const ERROR = { step: 0.1, margin: 0.3, holdMs: 400, round: 'nearest' } as const;
/** Which way the tilt goes is told from here to so far ahead: what a hand is about to need. */
const WAY_MM = 60;

export function FollowBoard(props: {
  readonly view: RunView;
  readonly plan: Plan;
  readonly board: RunBoard;
  readonly link: RunLink;
}) {
  const { view, plan, board, link } = props;
  const { readoutDeg, readoutTable } = plan.saw;
  const parts = useMemo(
    () => ({
      pointer: new Pointer(board.setup, readoutTable),
      figure: new StillFigure({ ...FIGURE, step: readoutDeg }),
      error: new StillFigure(ERROR),
      ahead: new StillFigure({ ...FIGURE, step: readoutDeg }),
    }),
    [board, readoutDeg, readoutTable],
  );
  useEffect(
    () =>
      link.listen({
        guide: (guide) => parts.pointer.told(guide, performance.now()),
        joined: () => parts.pointer.forget(),
      }),
    [link, parts],
  );
  const pointedAt = useMemo(() => oncePerFrame((nowMs) => parts.pointer.frame(board.shownAt(nowMs), nowMs)), [parts]);
  const certainty = useCertainty(link, board);
  const [figureDeg, setFigure] = useState<number | null>(null);
  const [errorDeg, setError] = useState<number | null>(null);
  const [way, setWay] = useState<'more' | 'less' | 'same'>('same');

  useFrames((nowMs) => {
    const pointed = pointedAt(nowMs);
    const figure = parts.figure.at(pointed.tiltDeg, nowMs);
    setFigure(figure);
    const ahead = shownDeg(tiltAt(board.setup, pointed.positionMm + WAY_MM), readoutTable);
    setWay(turnWord(figure, toReadoutStep(parts.ahead.at(ahead, nowMs), readoutDeg)));
    if (pointed.errorDeg === null) parts.error.forget();
    setError(pointed.errorDeg === null ? null : parts.error.at(pointed.errorDeg, nowMs));
  });

  const sign = signOf(view, certainty, errorDeg, way);
  const figure = figureDeg === null ? '' : readoutFigure(figureDeg, readoutDeg);
  return (
    <div class={`follow${certainty === 'known' ? '' : ' follow-unsure'}`}>
      <div class="follow-now">
        <p
          class={`follow-figure figures${figure.length > 4 ? ' follow-long' : ''}`}
          data-target={figureDeg}
          aria-live="off"
        >
          {figure}
          <span class="bearing-degree">°</span>
        </p>
        <FollowSign sign={sign} />
      </div>
      <ChalkLine board={board} plan={plan} isSure={certainty === 'known'} pointedAt={pointedAt} />
    </div>
  );
}

/** One thing at a time: what takes the trust out of the rest comes first. */
function signOf(
  view: RunView,
  certainty: ReturnType<typeof useCertainty>,
  errorDeg: number | null,
  way: 'more' | 'less' | 'same',
): Sign | null {
  if (view.state === 'stopped') return { kind: 'hold' };
  if (view.state !== 'feeding') return null;
  if (certainty !== 'known') return { kind: certainty };
  return errorDeg === null ? { kind: way } : { kind: 'error', errorDeg };
}

/** The drawing and the figure of one frame are of one reckoning. */
function oncePerFrame<T>(reckon: (nowMs: number) => T): (nowMs: number) => T {
  let last: { readonly nowMs: number; readonly value: T } | null = null;
  return (nowMs) => {
    if (last === null || last.nowMs !== nowMs) last = { nowMs, value: reckon(nowMs) };
    return last.value;
  };
}
