import { useEffect, useState } from 'preact/hooks';
import type { RecordedPhrase } from '../../server/wire/kept/voices.ts';
import { Note } from '../kit/parts/Note.tsx';
import { DoneShape, EarShape } from '../kit/parts/noticeShapes.tsx';
import { voicesHere } from './askServer.ts';
import { ForgetVoice } from './ForgetVoice.tsx';
import { Microphone } from './microphone.ts';
import { OnePhrase } from './OnePhrase.tsx';
import { PhrasesDone } from './PhrasesDone.tsx';
import type { PhraseList } from './phraseSource.ts';

/** One phrase after the other, with what is recorded already beside it. */
export function Recording(props: { readonly name: string; readonly list: PhraseList; readonly onLeave: () => void }) {
  const { name, list, onLeave } = props;
  const [kept, setKept] = useState<ReadonlyMap<string, RecordedPhrase> | null>(null);
  const [at, setAt] = useState(0);
  const [microphone, setMicrophone] = useState<Microphone | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);

  const isKept = (text: string): boolean => kept?.get(text)?.url != null;
  const done = list.texts.filter(isKept).length;

  useEffect(() => {
    void voicesHere.recorded(name).then((told) => {
      if (!told.ok && told.status !== 404) return setTrouble(told.error.message);
      const phrases = told.ok ? told.value.phrases : [];
      if (told.ok && told.value.fault !== null) setTrouble(told.value.fault);
      const found = new Map(phrases.map((phrase) => [phrase.text, phrase]));
      setKept(found);
      setAt(
        Math.max(
          0,
          list.texts.findIndex((text) => found.get(text)?.url == null),
        ),
      );
    });
  }, [name]);
  useEffect(() => () => microphone?.close(), [microphone]);

  async function listen(): Promise<void> {
    try {
      setMicrophone(await Microphone.open());
      setTrouble(null);
    } catch (error) {
      setTrouble(whyNot(error));
    }
  }

  /** The next one that is not recorded, from here on and round; otherwise simply the next. */
  function next(): void {
    const order = list.texts.map((_, step) => (at + 1 + step) % list.texts.length);
    const open = order.find((index) => !isKept(list.texts[index] ?? ''));
    setAt(open ?? (at + 1) % list.texts.length);
  }

  const text = list.texts[at] ?? '';
  return (
    <>
      <header class="voice-head">
        <div>
          <h1>{name}</h1>
          <p class="soft">{list.title}</p>
        </div>
        <p class="voice-count">
          <strong class="figures">
            {done} of {list.texts.length}
          </strong>{' '}
          recorded
          <progress value={done} max={list.texts.length} aria-label="Recorded" />
        </p>
      </header>
      {trouble !== null && <Note kind="alarm">{trouble}</Note>}
      <div class="voice-pair">
        <section class="sheet voice-desk" aria-label="This phrase">
          {microphone === null || kept === null ? (
            <div class="stack">
              <p class="voice-words">{text}</p>
              <p>
                A quiet room, blades standing. Mouth a hand’s breadth from the microphone. Say it as you would at the
                saw: loud, plain, in one go.
              </p>
              <button type="button" class="button-strong voice-record" onClick={() => void listen()}>
                <EarShape /> Use this device’s microphone
              </button>
            </div>
          ) : (
            <OnePhrase
              key={text}
              voice={name}
              text={text}
              place={`${at + 1} of ${list.texts.length}`}
              kept={kept.get(text) ?? null}
              microphone={microphone}
              onKept={(phrase) => setKept(new Map([...kept, [text, phrase]]))}
              onNext={next}
            />
          )}
        </section>
        <section class="voice-list" aria-label="All phrases">
          {done === list.texts.length && <PhrasesDone name={name} />}
          <ol>
            {list.texts.map((each, index) => (
              <li key={each}>
                <button type="button" aria-current={index === at} onClick={() => setAt(index)}>
                  <span class="voice-tick">{isKept(each) ? <DoneShape /> : null}</span>
                  {each}
                  {isKept(each) && <span class="unseen">, recorded</span>}
                </button>
              </li>
            ))}
          </ol>
          <div class="row">
            <button type="button" onClick={onLeave}>
              Another voice
            </button>
            {kept !== null && kept.size > 0 && <ForgetVoice name={name} onForgotten={onLeave} />}
          </div>
        </section>
      </div>
    </>
  );
}

function whyNot(error: unknown): string {
  if (navigator.mediaDevices === undefined)
    return 'This browser gives no page of this address a microphone: open the page on the server’s own machine, or with https.';
  const name = error instanceof Error ? error.name : '';
  if (name === 'NotAllowedError')
    return 'The microphone is forbidden here. Allow it for this page in the browser’s settings, then try again.';
  if (name === 'NotFoundError') return 'This device has no microphone. Plug one in, then try again.';
  return `The microphone cannot be used: ${error instanceof Error ? error.message : error}`;
}
