import { useEffect, useState } from 'preact/hooks';
import type { Plan } from '../../server/core/plan.ts';
import type { RunView } from '../../server/wire/messages.ts';
import { api } from '../kit/api.ts';
import { BelowLine } from '../kit/BelowLine.tsx';
import { Gone } from '../kit/Gone.tsx';
import type { Loudspeaker } from '../kit/loudspeaker.ts';
import { NOTICE_WORDS } from '../kit/noticeWords.ts';
import { Plank } from '../kit/Plank.tsx';
import type { RunLink } from '../kit/runLink.ts';
import { SoundCheck } from '../kit/SoundCheck.tsx';
import { CareShape, STATE_SHAPES, StoppedShape } from '../kit/shapes.tsx';
import { useStore } from '../kit/store.ts';
import { countReached, useRunBoard } from '../kit/useRunBoard.ts';
import { STATE_WORDS, WHEN_LOST, WHEN_LOST_AFTER } from '../kit/words.ts';
import { Bearing, whatIsShown } from './Bearing.tsx';
import { Handwheel } from './Handwheel.tsx';
import { useTarget } from './useTarget.ts';

export function WheelPage(props: { readonly link: RunLink; readonly loudspeaker: Loudspeaker | null }) {
  const state = useStore(props.link.state, (each) => each);
  const { view, plan } = state;
  return (
    <>
      {view === null || plan === null || state.line === 'refused' ? (
        <BelowLine state={state} />
      ) : (
        <Wheel link={props.link} loudspeaker={props.loudspeaker} view={view} plan={plan} />
      )}
      {state.line === 'gone' && <Gone state={view?.state ?? null} />}
    </>
  );
}

function Wheel(props: {
  readonly link: RunLink;
  readonly loudspeaker: Loudspeaker | null;
  readonly view: RunView;
  readonly plan: Plan;
}) {
  const { link, loudspeaker, view, plan } = props;
  const { stations, motion } = useRunBoard(link, plan, view.mode);
  const target = useTarget(link, stations, plan.saw.readoutTable);
  const isRehearsal = view.mode === 'rehearsal';

  return (
    <main class={`wheel wheel-${view.state}${isRehearsal ? ' wheel-rehearsal' : ''}`}>
      <StateBar view={view} reached={countReached(stations, view.mark)} what={whatIsShown(view, target, stations)} />
      <div class="face">
        {view.state === 'lost' ? <Lost /> : <Bearing view={view} plan={plan} stations={stations} target={target} />}
      </div>
      {isRehearsal && <Handwheel link={link} plan={plan} />}
      <Plank
        stations={stations}
        readoutDeg={plan.saw.readoutDeg}
        motion={motion}
        link={link}
        height={190}
        figureSize={150}
      />
      <Foot link={link} loudspeaker={loudspeaker} view={view} />
    </main>
  );
}

function StateBar(props: { readonly view: RunView; readonly reached: number; readonly what: string }) {
  const { view, reached, what } = props;
  const Shape = STATE_SHAPES[view.state];
  return (
    <header class="state-bar">
      <h1>
        <Shape /> <span data-state={view.state}>{STATE_WORDS[view.state]}</span>
        {view.state === 'stopped' && <span class="state-also">hold the tilt</span>}
      </h1>
      <p class="figures state-mark">
        {view.mark === 0 ? (
          'before the first mark'
        ) : (
          <>
            mark <strong>{view.mark}</strong>, {reached} of {view.marks}
          </>
        )}
        <br />
        <span class="soft">{what}</span>
      </p>
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

function NoticeBar({ link, view }: { readonly link: RunLink; readonly view: RunView }) {
  const told = useStore(link.state, (each) => each.notice);
  const notice = view.notice ?? told?.notice;
  if (notice === undefined || view.state === 'lost') return null;
  return (
    <p class="notice-bar" role="alert">
      <CareShape /> <strong>{NOTICE_WORDS[notice.code]}.</strong> {notice.message}
    </p>
  );
}

function Foot(props: { readonly link: RunLink; readonly loudspeaker: Loudspeaker | null; readonly view: RunView }) {
  const { link, loudspeaker, view } = props;
  const isUnderWay = view.state === 'feeding' || view.state === 'lost';
  return (
    <footer class="foot">
      {loudspeaker === null ? (
        <span>
          Display only, no sound here. <a href={`/wheel?run=${view.run}`}>Sound on</a>
        </span>
      ) : (
        <>
          <SoundCheck loudspeaker={loudspeaker} isBusy={isUnderWay} />
          <MuteLink loudspeaker={loudspeaker} run={view.run} />
        </>
      )}
      <NoticeBar link={link} view={view} />
      {isUnderWay && (
        <button type="button" class="foot-stop" onClick={() => void link.command('stop-feed')}>
          <StoppedShape /> Stop feed
        </button>
      )}
      {view.state === 'finished' && <AfterRun view={view} />}
      {!document.fullscreenElement && !isUnderWay && document.fullscreenEnabled && (
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
