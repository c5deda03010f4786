import { useMemo, useRef, useState } from 'preact/hooks';
import type { Plan } from '../../server/core/plan/plan.ts';
import { standStillSentence } from '../../server/core/saw/blade.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { lengthsIn } from '../kit/figures/shownFigures.ts';
import type { RunLink } from '../kit/link/runLink.ts';
import { useStore } from '../kit/link/store.ts';
import { useRunBoard } from '../kit/link/useRunBoard.ts';
import { DamageLine } from '../kit/parts/DamageLine.tsx';
import { Gone } from '../kit/parts/Gone.tsx';
import { Head } from '../kit/parts/Head.tsx';
import { MadeInSpite } from '../kit/parts/MadeInSpite.tsx';
import { NoRunYet } from '../kit/parts/NoRunYet.tsx';
import { type PedalKeys, recallKeys, rememberKeys } from '../kit/pedal/pedalKeys.ts';
import { Plank } from '../kit/plank/Plank.tsx';
import { AtBladePanel } from './AtBladePanel.tsx';
import { Controls } from './Controls.tsx';
import { DevicesPanel } from './DevicesPanel.tsx';
import { HeardLine } from './HeardLine.tsx';
import { ListenersPanel } from './ListenersPanel.tsx';
import { NoticeLine } from './NoticeLine.tsx';
import { PedalPanel } from './PedalPanel.tsx';
import { makeDeeds } from './pedalFeet.ts';
import { SquarePanel } from './SquarePanel.tsx';
import { StateHead } from './StateHead.tsx';
import { useSignals } from './useSignals.ts';
import { WindowWatch } from './WindowWatch.tsx';

export function SawyerPage({ link }: { readonly link: RunLink }) {
  const state = useStore(link.state, (each) => each);
  const { view, plan } = state;
  return (
    <>
      {view === null || plan === null || state.line === 'refused' ? (
        <NoRunYet state={state} />
      ) : (
        <Sawyer link={link} view={view} plan={plan} />
      )}
      {state.line === 'gone' && <Gone state={view?.state ?? null} />}
    </>
  );
}

function Sawyer({ link, view, plan }: { readonly link: RunLink; readonly view: RunView; readonly plan: Plan }) {
  const deeds = useMemo(() => makeDeeds(link), [link]);
  const board = useRunBoard(link, plan, view);
  const { stations } = board;
  const lengths = lengthsIn(plan.notation);
  const [keys, setKeys] = useState(recallKeys);
  const keysNow = useRef(keys);
  const isLearning = useRef(false);
  useSignals({ link, plan, deeds, keys: keysNow, isLearning });

  function changeKeys(changed: PedalKeys): void {
    keysNow.current = changed;
    setKeys(changed);
    rememberKeys(changed);
  }

  return (
    <>
      <Head>
        <a href={`/wheel?run=${view.run}`} target="_blank" rel="noreferrer">
          Wheel display here
        </a>
        <a href={`/codes?run=${view.run}`} target="_blank" rel="noreferrer">
          Mark codes
        </a>
        <a href={`/record?run=${view.run}`} target="_blank" rel="noreferrer">
          Record
        </a>
      </Head>
      <main class="sawyer">
        <WindowWatch />
        <StateHead view={view} plan={plan} stations={stations} link={link} />
        <Controls view={view} deeds={deeds} stations={stations} />
        {view.state === 'ready' && <MadeInSpite plan={plan} />}
        <SquarePanel view={view} plan={plan} />
        <AtBladePanel view={view} stations={stations} />
        <div class="sawyer-tell">
          <NoticeLine view={view} />
          <DamageLine damage={view.record.damage} />
          <HeardLine
            deeds={deeds}
            phase={view.state}
            needsSquare={view.square !== null && view.square.seenDeg === null}
          />
          <Plank board={board} readoutDeg={plan.saw.readoutDeg} link={link} height={150} figureSize={52} />
        </div>
        <section class="panel cautions">
          <h2>Before the blade turns</h2>
          <ul>
            {plan.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
            {plan.rip?.blade !== undefined && (
              <li>{standStillSentence(plan.rip, plan.frame.sidingMm, lengths.fineText)}</li>
            )}
          </ul>
        </section>
        <ListenersPanel link={link} view={view} />
        <PedalPanel
          keys={keys}
          onKeys={changeKeys}
          onLearning={(learning) => {
            isLearning.current = learning;
          }}
        />
        <DevicesPanel run={view.run} />
      </main>
    </>
  );
}
