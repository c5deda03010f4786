import { useEffect, useRef, useState } from 'preact/hooks';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { Clip } from '../../../server/wire/message/messages.ts';
import { type Store, useStore } from '../link/store.ts';
import { DoneShape, EarShape } from '../parts/noticeShapes.tsx';
import type { Loudspeaker } from '../sound/loudspeaker.ts';
import { CUES, type CueName } from './cues.ts';
import { changeInUse, type EarSettings } from './earSettings.ts';
import { HEARS_HERE, HEARS_WORDS, isWithoutBevels } from './hears.ts';
import { LatenessTest } from './LatenessTest.tsx';
import { LevelSection } from './LevelSection.tsx';
import { NoiseSection } from './NoiseSection.tsx';
import { OutputSection } from './OutputSection.tsx';

interface HearingPanelParts {
  readonly place: 'wheel' | 'sawyer';
  readonly loudspeaker: Loudspeaker;
  readonly settings: Store<EarSettings>;
  readonly plan: Plan;
  readonly clips: readonly Clip[];
  /** While calls come or the server is gone nothing may lie over the page: the panel cannot be opened, and closes. */
  readonly isBusy: boolean;
}

/** One button, and behind it how this device is to sound. */
export function HearingPanel(props: HearingPanelParts) {
  const [isOpen, setOpen] = useState(false);
  useEffect(() => {
    if (props.isBusy) setOpen(false);
  }, [props.isBusy]);
  if (props.isBusy) return null;
  return (
    <>
      <button type="button" onClick={() => setOpen(true)}>
        Sound here…
      </button>
      {isOpen && <Sheet {...props} onClose={() => setOpen(false)} />}
    </>
  );
}

function Sheet(props: HearingPanelParts & { readonly onClose: () => void }) {
  const { loudspeaker, settings } = props;
  const [isMeasuring, setMeasuring] = useState(false);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    dialog.current?.showModal();
    void loudspeaker.wake();
  }, [loudspeaker]);
  return (
    <dialog class="hearing" ref={dialog} onClose={props.onClose} aria-label="Sound here">
      <header class="hearing-head">
        <h2>{isMeasuring ? 'How late is it?' : 'Sound here'}</h2>
        <button type="button" class="button-strong" onClick={props.onClose}>
          <DoneShape /> Done
        </button>
      </header>
      {isMeasuring ? (
        <LatenessTest
          loudspeaker={loudspeaker}
          onMeasured={(measured) => {
            changeInUse(settings, { measured });
            setMeasuring(false);
          }}
          onLeave={() => setMeasuring(false)}
        />
      ) : (
        <div class="hearing-sections">
          <HearsSection place={props.place} settings={settings} />
          <OutputSection loudspeaker={loudspeaker} settings={settings} onMeasure={() => setMeasuring(true)} />
          <LevelSection loudspeaker={loudspeaker} settings={settings} />
          <NoiseSection settings={settings} plan={props.plan} clips={props.clips} />
          <CuesSection loudspeaker={loudspeaker} settings={settings} />
        </div>
      )}
    </dialog>
  );
}

function HearsSection({ place, settings }: Pick<HearingPanelParts, 'place' | 'settings'>) {
  const hears = useStore(settings, (each) => each.hears);
  return (
    <section>
      <h3>What is said here</h3>
      <div class="choices" role="radiogroup" aria-label="What is said here">
        {HEARS_HERE[place].map((each) => (
          <label key={each} class="choice">
            <input
              type="radio"
              name="hears"
              checked={each === hears}
              onChange={() => settings.change({ hears: each })}
            />
            <span>
              <strong>{HEARS_WORDS[each].word}</strong>
              <br />
              <span class="soft">{HEARS_WORDS[each].what}</span>
            </span>
          </label>
        ))}
      </div>
      {isWithoutBevels(hears) && <p>No bevel is said here: be sure that the tilt hand hears them elsewhere.</p>}
    </section>
  );
}

function CuesSection({ loudspeaker, settings }: Pick<HearingPanelParts, 'loudspeaker' | 'settings'>) {
  const isOn = useStore(settings, (each) => each.cues);
  return (
    <section>
      <h3>Cue tones</h3>
      <label class="choice">
        <input type="checkbox" checked={isOn} onChange={() => settings.change({ cues: !isOn })} />
        <span>
          <strong>Tones in the gaps between the words</strong>
          <br />
          <span class="soft">never over them, never instead of them</span>
        </span>
      </label>
      <div class="row">
        {(Object.keys(CUES) as CueName[]).map((cue) => (
          <button key={cue} type="button" onClick={() => loudspeaker.cue(cue)}>
            <EarShape /> {cue}
          </button>
        ))}
      </div>
    </section>
  );
}
