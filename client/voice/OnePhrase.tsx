import { useEffect, useRef, useState } from 'preact/hooks';
import { secondsText } from '../../server/core/figures/durations.ts';
import { longestSpokenS } from '../../server/core/words/spokenLength.ts';
import type { RecordedPhrase } from '../../server/wire/kept/voices.ts';
import { Note } from '../kit/parts/Note.tsx';
import { DoneShape, EarShape, FeedingShape, ReadyShape, StoppedShape } from '../kit/parts/noticeShapes.tsx';
import { voicesHere } from './askServer.ts';
import { LevelMeter } from './LevelMeter.tsx';
import type { Microphone } from './microphone.ts';
import { base64, takeAsWav } from './takeAsWav.ts';

/** To draw breath before, and to be sure of the end behind. */
const ROOM_FOR_BREATH_S = 6;

type State =
  | { readonly kind: 'waiting' }
  | { readonly kind: 'recording' }
  | { readonly kind: 'looked-at' }
  | { readonly kind: 'refused'; readonly message: string };

/** Record it, hear it, again, next. */
export function OnePhrase(props: {
  readonly voice: string;
  readonly text: string;
  readonly place: string;
  readonly kept: RecordedPhrase | null;
  readonly microphone: Microphone;
  readonly onKept: (phrase: RecordedPhrase) => void;
  readonly onNext: () => void;
}) {
  const { voice, text, place, kept, microphone, onKept, onNext } = props;
  const [state, setState] = useState<State>({ kind: 'waiting' });
  const [isNew, setNew] = useState(false);
  const playing = useRef<HTMLAudioElement | null>(null);
  const isHere = useRef(true);
  useEffect(
    () => () => {
      isHere.current = false;
      playing.current?.pause();
      microphone.stop();
    },
    [],
  );

  async function record(): Promise<void> {
    playing.current?.pause();
    setState({ kind: 'recording' });
    const take = await microphone.record(1.5 * longestSpokenS(text) + ROOM_FOR_BREATH_S);
    // Left for another phrase in the middle of it: nobody has said that it is done.
    if (!isHere.current) return;
    setState({ kind: 'looked-at' });
    const told = await voicesHere.keep(voice, text, base64(takeAsWav(take)));
    if (told.ok) onKept({ text, url: told.value.url, durationMs: told.value.durationMs, fault: null });
    if (!isHere.current) return;
    setNew(told.ok);
    setState(told.ok ? { kind: 'waiting' } : { kind: 'refused', message: told.error.message });
  }

  function hear(url: string): void {
    playing.current?.pause();
    playing.current = new Audio(url);
    void playing.current.play().catch(() => setState({ kind: 'refused', message: 'This device cannot play it.' }));
  }

  const url = kept?.url ?? null;
  const isRecording = state.kind === 'recording';
  const isBusy = isRecording || state.kind === 'looked-at';
  const fault = state.kind === 'refused' ? state.message : url === null ? kept?.fault?.message : undefined;
  return (
    <div class="stack">
      <p class="soft figures">{place}</p>
      <p class="voice-words">{text}</p>
      <LevelMeter microphone={microphone} />
      <button
        type="button"
        class={`voice-record ${isRecording ? 'voice-recording' : isNew ? '' : 'button-strong'}`}
        disabled={state.kind === 'looked-at'}
        onClick={() => (isRecording ? microphone.stop() : void record())}
      >
        {isRecording ? (
          <>
            <StoppedShape /> Say it now. Stop
          </>
        ) : (
          <>
            <ReadyShape /> {url === null ? 'Record' : 'Again'}
          </>
        )}
      </button>
      <div class="row voice-after">
        <button type="button" disabled={url === null || isBusy} onClick={() => url !== null && hear(url)}>
          <EarShape /> Hear it
        </button>
        <button type="button" class={isNew ? 'button-strong' : ''} disabled={isBusy} onClick={onNext}>
          <FeedingShape /> {url === null ? 'Skip' : 'Next'}
        </button>
      </div>
      <div class="voice-verdict" role="status">
        {isRecording && <p class="soft">It stops by itself when you have said it.</p>}
        {state.kind === 'looked-at' && <p class="soft">Listening to it…</p>}
        {!isBusy && fault !== undefined && (
          <Note kind="alarm" word="Again">
            {fault}
          </Note>
        )}
        {!isBusy && fault === undefined && url !== null && (
          <p>
            <DoneShape /> {isNew ? 'Good. Kept' : 'Recorded'}, {secondsText((kept?.durationMs ?? 0) / 1000)}.
          </p>
        )}
      </div>
    </div>
  );
}
