import { useEffect, useState } from 'preact/hooks';
import type { Plan } from '../../server/core/plan/plan.ts';
import { placeText } from '../../server/core/run/view/placeText.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { NOTICE_WORDS } from '../kit/figures/noticeWords.ts';
import { type SafeFeed, useSafeFeed } from '../kit/figures/useSafeFeed.ts';
import { EASE_THE_FEED, SAFE_NOW, STATE_WORDS, WHEN_LOST, WHEN_LOST_AFTER } from '../kit/figures/words.ts';
import type { EarSettings } from '../kit/hearing/earSettings.ts';
import { HearingPanel } from '../kit/hearing/HearingPanel.tsx';
import { api } from '../kit/link/api.ts';
import type { RunLink } from '../kit/link/runLink.ts';
import { type Store, useStore } from '../kit/link/store.ts';
import { useRunBoard } from '../kit/link/useRunBoard.ts';
import { Gone } from '../kit/parts/Gone.tsx';
import { NoRunYet } from '../kit/parts/NoRunYet.tsx';
import { CareShape, EaseShape, STATE_SHAPES, StoppedShape } from '../kit/parts/noticeShapes.tsx';
import { Plank } from '../kit/plank/Plank.tsx';
import type { Loudspeaker } from '../kit/sound/loudspeaker.ts';
import { SoundCheck } from '../kit/sound/SoundCheck.tsx';
import { Bearing, whatIsShown } from './Bearing.tsx';
import { FollowBoard } from './FollowBoard.tsx';
import { Handwheel } from './Handwheel.tsx';
import { useTarget } from './useTarget.ts';

export function WheelPage(props: {
  readonly link: RunLink;
  readonly loudspeaker: Loudspeaker | null;
  readonly settings: Store<EarSettings>;
}) {
  const state = useStore(props.link.state, (each) => each);
  const { view, plan } = state;
  return (
    <>
      {view === null || plan === null || state.line === 'refused' ? (
        <NoRunYet state={state} />
      ) : (
        <Wheel {...props} view={view} plan={plan} />
      )}
      {state.line === 'gone' && <Gone state={view?.state ?? null} />}
    </>
  );
}

interface WheelParts {
  readonly link: RunLink;
  readonly loudspeaker: Loudspeaker | null;
  readonly settings: Store<EarSettings>;
  readonly view: RunView;
  readonly plan: Plan;
}

function Wheel(props: WheelParts) {
  const { link, view, plan } = props;
  const board = useRunBoard(link, plan, view);
  const { stations } = board;
  const target = useTarget(link, board.setup);
  const safeFeed = useSafeFeed(link, plan);
  const isRehearsal = view.mode === 'rehearsal';
  const isFollowing = target.board === 'follow';

  return (
    <main class={`wheel wheel-${view.state}${isRehearsal ? ' wheel-rehearsal' : ''}`}>
      <StateBar view={view} what={whatIsShown(view, target, stations)} safeFeed={safeFeed} />
      <div class="face">
        {view.state === 'lost' ? (
          <Lost />
        ) : isFollowing ? (
          <FollowBoard view={view} plan={plan} board={board} link={link} />
        ) : (
          <Bearing view={view} plan={plan} stations={stations} target={target} />
        )}
      </div>
      {isRehearsal && <Handwheel link={link} plan={plan} run={view.run} />}
      {!isFollowing && (view.state !== 'lost' || isRehearsal) && (
        <Plank board={board} readoutDeg={plan.saw.readoutDeg} link={link} height={190} figureSize={150} />
      )}
      <Foot {...props} />
    </main>
  );
}

interface StateBarParts {
  readonly view: RunView;
  readonly what: string;
  readonly safeFeed: SafeFeed;
}

function StateBar({ view, what, safeFeed }: StateBarParts) {
  const Shape = STATE_SHAPES[view.state];
  if (safeFeed.isEasing) return <EaseBar view={view} safe={safeFeed.safe} />;
  return (
    <header class="state-bar">
      <h1>
        <Shape /> <span data-state={view.state}>{STATE_WORDS[view.state]}</span>
      </h1>
      <p class="figures state-mark">
        {placeText(view)}
        <br />
        <span class="soft">{what}</span>
      </p>
    </header>
  );
}

/** In the place of the state, so that nothing moves: the feed is too fast for the hand. */
function EaseBar({ view, safe }: { readonly view: RunView; readonly safe: string | null }) {
  return (
    <header class="state-bar state-ease">
      <h1>
        <EaseShape /> <span data-state={view.state}>{EASE_THE_FEED}</span>
      </h1>
      {safe !== null && (
        <p class="figures state-safe">
          {SAFE_NOW}
          <br />
          <strong>{safe}</strong>
        </p>
      )}
    </header>
  );
}

function Lost() {
  return (
    <div class="lost" role="alert">
      <ol>
        {WHEN_LOST.map((order) => (
          <li key={order}>{order}</li>
        ))}
      </ol>
      <p>{WHEN_LOST_AFTER}</p>
    </div>
  );
}

function NoticeBar({ view: { notice, state } }: { readonly view: RunView }) {
  if (notice === null || state === 'lost') return null;
  return (
    <p class="notice-bar" role="alert">
      <CareShape /> <strong>{NOTICE_WORDS[notice.code]}.</strong> {notice.message}
    </p>
  );
}

function Foot({ link, loudspeaker, settings, view, plan }: WheelParts) {
  const isUnderWay = view.state === 'feeding' || view.state === 'lost';
  const { clips, line } = useStore(link.state, (each) => each);
  return (
    <footer class="foot">
      {loudspeaker === null ? (
        <span>
          Display only, no sound here. <a href={`/wheel?run=${view.run}`}>Sound on</a>
        </span>
      ) : (
        <>
          <SoundCheck loudspeaker={loudspeaker} isBusy={view.state !== 'ready'} />
          <HearingPanel
            place="wheel"
            loudspeaker={loudspeaker}
            settings={settings}
            plan={plan}
            clips={clips}
            isBusy={isUnderWay || view.state === 'finished' || line === 'gone'}
          />
          <MuteLink loudspeaker={loudspeaker} run={view.run} />
        </>
      )}
      <NoticeBar view={view} />
      {isUnderWay && (
        <button type="button" class="foot-stop" onClick={() => void link.command('stop-feed')}>
          <StoppedShape /> Stop feed
        </button>
      )}
      {view.state === 'finished' && <AfterRun view={view} />}
      {!document.fullscreenElement && view.state === 'ready' && document.fullscreenEnabled && (
        <button type="button" onClick={() => void document.documentElement.requestFullscreen()}>
          Full screen
        </button>
      )}
    </footer>
  );
}

function MuteLink({ loudspeaker, run }: { readonly loudspeaker: Loudspeaker; readonly run: string }) {
  const hearing = useStore(loudspeaker.state, (each) => each.hearing);
  return hearing === 'confirmed' ? null : <a href={`/wheel?run=${run}&sound=off`}>Display only, no sound</a>;
}

function AfterRun({ view }: { readonly view: RunView }) {
  const [isConsole, setConsole] = useState(false);
  useEffect(() => {
    void api.access().then((asked) => setConsole(asked.ok && asked.value.role === 'console'));
  }, []);
  return (
    <>
      {isConsole && (
        <a class="button button-strong" href={`/record?run=${view.run}`}>
          {view.mode === 'rehearsal' ? 'How it went' : 'Read the record'}
        </a>
      )}
      <a class="button" href="/wheel">
        Next run
      </a>
    </>
  );
}
