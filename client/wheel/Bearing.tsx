import type { Plan } from '../../server/core/plan/plan.ts';
import type { Station } from '../../server/core/run/engine/state.ts';
import { turnWord } from '../../server/core/words/turnWord.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { readoutFigure } from '../kit/figures/shownFigures.ts';
import { LessShape, MoreShape, SameShape, StoppedShape } from '../kit/parts/noticeShapes.tsx';
import { type Target, wayOf } from './useTarget.ts';
import { Wedge } from './Wedge.tsx';

const WAYS = {
  more: { Shape: MoreShape, word: 'more' },
  less: { Shape: LessShape, word: 'less' },
  same: { Shape: SameShape, word: 'same' },
} as const;

/** The angle in very large figures; beside it the wedge at its true angle, or the figure that comes next, and which way it goes. */
export function Bearing(props: {
  readonly view: RunView;
  readonly plan: Plan;
  readonly stations: readonly Station[];
  readonly target: Target;
}) {
  const { view, plan, stations, target } = props;
  const { readoutDeg } = plan.saw;
  const deg = target.deg ?? stations[0]?.callDeg ?? 0;
  const isStep = target.board === 'step';
  const figure = readoutFigure(deg, readoutDeg);
  return (
    <div class="bearing">
      <p class={`bearing-figure figures${figure.length > 4 ? ' bearing-long' : ''}`} data-target={deg} aria-live="off">
        {figure}
        <span class="bearing-degree">°</span>
      </p>
      <div class="bearing-side">
        {isStep && target.thenDeg !== null && view.state !== 'finished' ? (
          <Then deg={target.thenDeg} fromDeg={deg} readoutDeg={readoutDeg} isWay={view.state === 'feeding'} />
        ) : (
          <>
            <Wedge deg={deg} />
            {view.state === 'feeding' && !isStep && <Way way={wayOf(target)} />}
          </>
        )}
        {view.state === 'stopped' && (
          <p class="bearing-way">
            <StoppedShape /> hold
          </p>
        )}
        {view.state === 'ready' && <p class="bearing-way">first</p>}
      </div>
    </div>
  );
}

function Way({ way }: { readonly way: keyof typeof WAYS | null }) {
  if (way === null) return null;
  const { Shape, word } = WAYS[way];
  return (
    <p class="bearing-way" data-way={way}>
      <Shape /> {word}
    </p>
  );
}

/** The figure that is called next: not yet to be turned to. */
function Then(props: {
  readonly deg: number;
  readonly fromDeg: number;
  readonly readoutDeg: number;
  readonly isWay: boolean;
}) {
  return (
    <>
      <p class="bearing-then figures">
        <span class="bearing-then-word">then</span> {readoutFigure(props.deg, props.readoutDeg)}°
      </p>
      {props.isWay && <Way way={turnWord(props.fromDeg, props.deg)} />}
    </>
  );
}

export function whatIsShown(view: RunView, target: Target, stations: readonly Station[]): string {
  if (view.state === 'stopped' || view.state === 'lost') return 'Hold the tilt';
  if (view.state === 'ready') return 'The first bevel';
  if (view.state === 'finished') return 'To the end of the stock';
  if (target.board === 'follow') return 'The tilt now';
  if (target.board === 'step') return 'Hold until the next call';
  const to = stations[target.index];
  return to === undefined ? 'Hold the tilt' : `Turn to this for mark ${to.mark}`;
}
