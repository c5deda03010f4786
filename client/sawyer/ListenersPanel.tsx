import { useState } from 'preact/hooks';
import { SERVER_EAR } from '../../server/wire/kept/voices.ts';
import type { Listener, RunView } from '../../server/wire/message/messages.ts';
import { HEARING_WORDS } from '../kit/figures/words.ts';
import { openEarSettings } from '../kit/hearing/earSettings.ts';
import { HearingPanel } from '../kit/hearing/HearingPanel.tsx';
import type { RunLink } from '../kit/link/runLink.ts';
import { useStore } from '../kit/link/store.ts';
import { Note } from '../kit/parts/Note.tsx';
import { DeafShape, EarShape, ReadyShape } from '../kit/parts/noticeShapes.tsx';
import { Loudspeaker } from '../kit/sound/loudspeaker.ts';
import { SoundCheck } from '../kit/sound/SoundCheck.tsx';
import { speakRun } from '../kit/sound/speakRun.ts';
import { ServerLoudspeaker } from './ServerLoudspeaker.tsx';

/** Who hears the calls, and whether each is sure to. This device may be one of them. */
export function ListenersPanel({ link, view }: { readonly link: RunLink; readonly view: RunView }) {
  const [loudspeaker, setLoudspeaker] = useState<Loudspeaker | null>(null);
  const [settings] = useState(() => openEarSettings('sawyer'));
  const isBusy = view.state === 'feeding' || view.state === 'lost';
  const { plan, clips, line } = useStore(link.state, (each) => each);

  function listenHere(): void {
    const made = new Loudspeaker(view.run);
    speakRun({ link, loudspeaker: made, settings, role: 'sawyer', label: 'Sawyer\u2019s loudspeaker' });
    setLoudspeaker(made);
  }

  return (
    <section class="panel">
      <h2>Who hears the calls</h2>
      {view.listeners.length === 0 && (
        <p>
          <DeafShape /> Nobody yet. Open a wheel display, or use this device’s loudspeaker.
        </p>
      )}
      <ul class="listeners">
        {view.listeners.map((listener) => (
          <ListenerRow key={listener.id + listener.role} listener={listener} />
        ))}
      </ul>
      {isBevelUnheard(view.listeners) && (
        <Note kind="care">Nobody hears the bevels: every device here hears stops only.</Note>
      )}
      <ServerLoudspeaker hearing={view.listeners.find(({ id }) => id === SERVER_EAR)?.hearing} isBusy={isBusy} />
      {loudspeaker === null ? (
        <button type="button" onClick={listenHere}>
          <EarShape /> Use this device’s loudspeaker
        </button>
      ) : (
        <>
          <SoundCheck loudspeaker={loudspeaker} isBusy={isBusy} />
          {plan !== null && (
            <HearingPanel
              place="sawyer"
              loudspeaker={loudspeaker}
              settings={settings}
              plan={plan}
              clips={clips}
              isBusy={isBusy || line === 'gone'}
            />
          )}
        </>
      )}
    </section>
  );
}

const isBevelUnheard = (listeners: readonly Listener[]): boolean =>
  listeners.length > 0 && listeners.every(({ isWithoutBevels = false }) => isWithoutBevels);

function ListenerRow({ listener }: { readonly listener: Listener }) {
  const Shape = listener.hearing === 'confirmed' ? EarShape : listener.hearing === 'loading' ? ReadyShape : DeafShape;
  return (
    <li class={listener.hearing === 'confirmed' ? '' : 'listener-deaf'}>
      <Shape /> <strong>{listener.label}</strong>: {HEARING_WORDS[listener.hearing]}
    </li>
  );
}
