/** A feed that is typed, in the unit of the job: m/min or ft/min. */
import type { ComponentChildren } from 'preact';
import { feedFigure, feedUnit, typedFeedMPerMin } from '../../../server/core/figures/feeds.ts';
import type { Notation } from '../../../server/core/figures/notation.ts';

const LEAST_M_PER_MIN = 0.1;
const MOST_M_PER_MIN = 20;

export function FeedField(props: {
  readonly notation: Notation;
  readonly mPerMin: number;
  readonly onFeed: (mPerMin: number) => void;
  readonly children: ComponentChildren;
}) {
  const { notation } = props;
  const within = (mPerMin: number): number => Math.min(MOST_M_PER_MIN, Math.max(LEAST_M_PER_MIN, mPerMin));
  return (
    <label class="row">
      <span>Feed, {feedUnit(notation)}</span>
      <input
        type="number"
        min={notation === 'mm' ? 0.1 : 0.5}
        step={notation === 'mm' ? 0.1 : 0.5}
        value={feedFigure(props.mPerMin, notation, 'nearest')}
        onInput={(event) => {
          const typed = event.currentTarget.valueAsNumber;
          props.onFeed(within(Number.isFinite(typed) ? typedFeedMPerMin(typed, notation) : 0));
        }}
      />
      {props.children}
    </label>
  );
}
