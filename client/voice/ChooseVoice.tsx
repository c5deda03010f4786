import { useEffect, useState } from 'preact/hooks';
import { VOICE_NAME_CHARS, type VoiceHere, voiceKey, voiceName } from '../../server/wire/kept/voices.ts';
import { Note } from '../kit/parts/Note.tsx';
import { voicesHere } from './askServer.ts';
import type { PhraseList } from './phraseSource.ts';

/** Whose voice it is: a new one, or one to go on with. */
export function ChooseVoice({
  list,
  onChoose,
}: {
  readonly list: PhraseList;
  readonly onChoose: (name: string) => void;
}) {
  const [voices, setVoices] = useState<readonly VoiceHere[]>([]);
  const [name, setName] = useState('');
  const [isAgreed, setAgreed] = useState(false);
  const [error, setError] = useState<string | null>(null);
  useEffect(() => {
    void voicesHere.list().then((told) => {
      if (told.ok) setVoices(told.value);
      else setError(told.error.message);
    });
  }, []);
  const recorded = voices.filter(({ kind }) => kind === 'recorded');
  const known = voices.find((voice) => voiceKey(voice.name) === voiceKey(name));
  const isFree = voiceName(name) !== undefined && known === undefined;

  return (
    <section class="stack voice-who">
      <h1>Record a voice</h1>
      <p>
        For <strong>{list.title}</strong>: {list.texts.length} phrases, a few words each. It takes some ten seconds a
        phrase, and you can stop and go on another day.
      </p>
      {error !== null && <Note kind="alarm">{error}</Note>}
      {recorded.map((voice) => (
        <button key={voice.name} type="button" class="voice-choice" onClick={() => onChoose(voice.name)}>
          Go on with {voice.name} <span class="soft">{voice.phrases} recorded</span>
        </button>
      ))}
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          onChoose(voiceName(name) ?? name);
        }}
      >
        <label class="stack voice-name">
          <span>{recorded.length === 0 ? 'Whose voice?' : 'Or a new voice: whose?'}</span>
          <input
            type="text"
            value={name}
            maxLength={VOICE_NAME_CHARS}
            autocomplete="off"
            placeholder="Name or initials"
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        {name.trim() !== '' && !isFree && (
          <p class="soft">
            {known === undefined
              ? 'Letters, digits, spaces and hyphens only.'
              : known.kind === 'recorded'
                ? 'This one is there already: go on with it above.'
                : 'This name is taken by a voice of the program.'}
          </p>
        )}
        <label class="row voice-yes">
          <input type="checkbox" checked={isAgreed} onChange={(event) => setAgreed(event.currentTarget.checked)} />
          <span>
            It is my voice, or its owner agrees. It is kept on the server’s machine until it is forgotten here.
          </span>
        </label>
        <div class="row">
          <button type="submit" class="button-strong" disabled={!isFree || !isAgreed}>
            Begin
          </button>
        </div>
      </form>
    </section>
  );
}
