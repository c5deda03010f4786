import type { Plan } from '../../server/core/plan.ts';
import type { Station } from '../../server/core/run/state.ts';
import type { RunView } from '../../server/wire/messages.ts';
import { readoutFigure } from '../kit/figures.ts';
import { LessShape, MoreShape, SameShape, StoppedShape } from '../kit/shapes.tsx';
import { type Target, wayOf } from './useTarget.ts';
import { Wedge } from './Wedge.tsx';

const WAYS = {
  more: { Shape: MoreShape, word: 'more' },
  less: { Shape: LessShape, word: 'less' },
  same: { Shape: SameShape, word: 'same' },
} as const;

/** The angle in very large figures; beside it the wedge at its true angle and which way it goes. */
export function Bearing(props: {
  readonly view: RunView;
  readonly plan: Plan;
  readonly stations: readonly Station[];
  readonly target: Target;
}) {
  const { view, plan, stations, target } = props;
  const { readoutDeg } = plan.saw;
  const first = stations[0];
  const deg = target.deg ?? first?.callDeg ?? 0;
  const way = view.state === 'feeding' ? wayOf(target, stations, readoutDeg) : null;
  const Way = way === null ? null : WAYS[way];
  const figure = readoutFigure(deg, readoutDeg);
  return (
    <div class="bearing">
      <p class={`bearing-figure figures${figure.length > 4 ? ' bearing-long' : ''}`} data-target={deg} aria-live="off">
        {figure}
        <span class="bearing-degree">°</span>
      </p>
      <div class="bearing-side">
        <Wedge deg={deg} />
        {Way !== null && (
          <p class="bearing-way" data-way={way}>
            <Way.Shape /> {Way.word}
          </p>
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

export function whatIsShown(view: RunView, target: Target, stations: readonly Station[]): string {
  if (view.state === 'stopped' || view.state === 'lost') return 'Turn nothing';
  if (view.state === 'ready') return 'The first bevel';
  if (view.state === 'finished') return 'To the end of the stock';
  if (target.isFollowed) return 'The tilt now';
  const to = stations[target.index];
  return to === undefined ? 'Hold the tilt' : `Turn to this for mark ${to.mark}`;
}
