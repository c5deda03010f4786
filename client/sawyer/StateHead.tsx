import type { Plan } from '../../server/core/plan/plan.ts';
import { routineNamed } from '../../server/core/routine/routines.ts';
import type { Phase, Station } from '../../server/core/run/engine/state.ts';
import { placeText } from '../../server/core/run/view/placeText.ts';
import { turnWord } from '../../server/core/words/turnWord.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { readoutFigure } from '../kit/figures/shownFigures.ts';
import { type SafeFeed, useSafeFeed } from '../kit/figures/useSafeFeed.ts';
import { EASE_THE_FEED, MODE_WORDS, SAFE_NOW, STATE_WORDS, TURN_WORDS } from '../kit/figures/words.ts';
import type { RunLink } from '../kit/link/runLink.ts';
import { EaseShape, LessShape, MoreShape, SameShape, STATE_SHAPES } from '../kit/parts/noticeShapes.tsx';

const TURN_SHAPES = { more: MoreShape, less: LessShape, same: SameShape };

/** The feed that is safe from here on, beside the one that is; its place is kept while there is none, so that Stop feed stays where it is. */
function SafeLine({ safeFeed: { safe, feed }, isShown }: { readonly safeFeed: SafeFeed; readonly isShown: boolean }) {
  return (
    <p class={`state-safe figures${isShown ? '' : ' kept-empty'}`}>
      <span class={safe === null ? 'kept-empty' : undefined}>
        {SAFE_NOW} <strong>{safe ?? '…'}</strong>
      </span>
      <span class="soft">feed {feed ?? '…'}</span>
    </p>
  );
}

/** The state in one word, and the mark that comes to the blade next with its bevel. */
export function StateHead(props: {
  readonly view: RunView;
  readonly plan: Plan;
  readonly stations: readonly Station[];
  readonly link: RunLink;
}) {
  const { view, plan, stations, link } = props;
  const safeFeed = useSafeFeed(link, plan);
  const Shape = safeFeed.isEasing ? EaseShape : STATE_SHAPES[view.state];
  const index = stations.findIndex((station) => station.mark === view.nextMark);
  const next = stations[index];
  const before = stations[index - 1];
  const turn = next === undefined || before === undefined ? null : turnWord(before.callDeg, next.callDeg);
  const Turn = TURN_SHAPES[turn ?? 'same'];
  return (
    <section class={`state-head state-${view.state}${safeFeed.isEasing ? ' state-ease' : ''}`}>
      <div class="state-now">
        <h1 class="state-word">
          <Shape /> <span data-state={view.state}>{safeFeed.isEasing ? EASE_THE_FEED : STATE_WORDS[view.state]}</span>
        </h1>
        <p class="state-place figures">{placeText(view)}</p>
        <SafeLine safeFeed={safeFeed} isShown={view.state === 'feeding' && view.mark > 0} />
      </div>
      <div class={next !== undefined && view.state !== 'finished' ? 'to-come' : 'to-come kept-empty'}>
        <p class="to-come-mark">mark {next?.mark}</p>
        <p class="to-come-bevel figures">{readoutFigure(next?.callDeg ?? 0, plan.saw.readoutDeg)}°</p>
        <p class={`to-come-turn${turn !== null && view.state === 'feeding' ? '' : ' kept-empty'}`}>
          <Turn /> {TURN_WORDS[turn ?? 'same']}
        </p>
      </div>
      <p class="state-what">{whatToDo(view)}</p>
      <p class="state-title soft">
        The {plan.leads} leads. {view.title}, {MODE_WORDS[view.mode]}.
      </p>
    </section>
  );
}

const WHAT: Readonly<Record<Phase, string>> = {
  ready: 'Start calls the first bevel. Turn to it before the wood touches the blade.',
  feeding: 'Press as each mark reaches the blade. Foot kept down: stop feed.',
  stopped: 'Hold the tilt. Resume when the feed goes on.',
  lost: 'Stop feed. Hold the tilt. Switch off. Wait until the blade stands. Never back out of a running blade.',
  finished: 'The last mark is past the blade. Hold the tilt to the end of the stock.',
};

function whatToDo(view: RunView): string {
  if (!view.isPlaceKnown) return 'Hold the tilt. Say which mark is at the blade.';
  if (view.state === 'feeding' && view.feed === 'simulated') return 'The stock is simulated. Stop feed stops it.';
  if (view.state === 'feeding' && routineNamed(view.routine).needsTravel)
    return 'The travel is counted. A press at a mark puts it right. Foot kept down: stop feed.';
  if (view.state === 'finished' && view.nextMark !== null)
    return 'Ended before the last mark. Nothing more is called: stop the feed, hold the tilt.';
  return WHAT[view.state];
}
