import { useState } from 'preact/hooks';
import { durationFigure } from '../../../server/core/figures/durations.ts';
import { feedText } from '../../../server/core/figures/feeds.ts';
import { placeText } from '../../../server/core/figures/lengths.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { RoutinePace } from '../../../server/core/routine/limits.ts';
import { ROUTINES, USUAL_ROUTINE } from '../../../server/core/routine/routine.ts';
import { LIMIT_WORDS, ROUTINE_WORDS } from '../../../server/core/text/routineWords.ts';
import { suggestionText } from '../../../server/core/text/suggestionText.ts';
import { PaceDrawing } from './PaceDrawing.tsx';
import './pace.css';

/** How fast the stock may be fed in each routine, where it is slowest, and what would help. Nothing for plans of before. */
export function PaceSheet({ plan }: { readonly plan: Plan }) {
  const [shown, setShown] = useState(USUAL_ROUTINE);
  const { routines, suggestions = [] } = plan.pace;
  if (routines === undefined) return null;
  const feed = (mPerMin: number): string => feedText(mPerMin, plan.notation);
  const figures = { feed, length: (mm: number) => placeText(mm, plan.notation), duration: durationFigure };
  return (
    <section class="sheet stack pace">
      <h2>Pace</h2>
      <div class="pace-parts">
        <div class="stack">
          <div class="scroll">
            <table class="pace-table">
              <thead>
                <tr>
                  <th scope="col">Routine</th>
                  <th scope="col">Feed at most</th>
                  <th scope="col">Whole rip</th>
                  <th scope="col">Limited by</th>
                </tr>
              </thead>
              <tbody>
                {ROUTINES.map((name) => (
                  <tr key={name} class={name === shown ? 'pace-shown' : undefined}>
                    <th scope="row">
                      <button type="button" aria-pressed={name === shown} onClick={() => setShown(name)}>
                        {ROUTINE_WORDS[name].title}
                      </button>
                    </th>
                    <td class="pace-feed">{atMost(routines[name], feed)}</td>
                    <td>{durationFigure(routines[name].durationS)}</td>
                    <td>{limitOf(routines[name])}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p class="soft">
            The crew’s own feed is {feed(plan.crew.feedMPerMin)}. All but mark by mark need a measuring wheel.
          </p>
        </div>
        <PaceDrawing plan={plan} limits={routines[shown].intervals} feed={feed} />
      </div>
      {suggestions.length > 0 && (
        <div class="stack pace-help">
          <h3>Mark by mark at {feed(plan.crew.feedMPerMin)} is too fast. What helps:</h3>
          <ul>
            {suggestions.map((suggestion) => {
              const text = suggestionText(suggestion, figures);
              return <li key={text}>{text}</li>;
            })}
          </ul>
        </div>
      )}
    </section>
  );
}

const atMost = ({ limitMPerMin }: RoutinePace, feed: (mPerMin: number) => string): string =>
  limitMPerMin === null ? 'any' : feed(limitMPerMin);

const limitOf = ({ limitedBy }: RoutinePace): string => (limitedBy === null ? 'nothing' : LIMIT_WORDS[limitedBy]);
