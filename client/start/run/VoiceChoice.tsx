import { useEffect, useState } from 'preact/hooks';
import type { VoiceHere } from '../../../server/wire/kept/voices.ts';
import { voicesHere } from '../../voice/askServer.ts';
import { handOver, type PhraseList } from '../../voice/phraseSource.ts';
import { Choice } from './Choice.tsx';

/** No name: the embedded voice. */
export const OWN_VOICE = '';

/** Who speaks the calls, where there is a choice; and the way to record the yard's own mate. */
export function VoiceChoice(props: {
  readonly chosen: string;
  /** Everything that the run will say. */
  readonly list: () => PhraseList;
  readonly onChoose: (name: string) => void;
}) {
  const [voices, setVoices] = useState<readonly VoiceHere[]>([]);
  useEffect(() => {
    void voicesHere.list().then((told) => told.ok && setVoices(told.value));
  }, []);
  const others = voices.filter(({ kind }) => kind !== 'embedded');
  return (
    <div class="stack">
      {others.length > 0 && (
        <Choice<string>
          name="voice"
          legend="Who speaks"
          choices={[
            [OWN_VOICE, 'The program’s voice', 'Made to be understood beside a saw.'],
            ...others.map((voice) => [voice.name, nameOf(voice), meaningOf(voice)] as const),
          ]}
          chosen={props.chosen}
          onChoose={props.onChoose}
        />
      )}
      <p>
        <a href="/voice?plan=here" onClick={() => handOver(props.list())}>
          Record a voice
        </a>{' '}
        <span class="soft">of the yard’s own, phrase by phrase, for this run.</span>
      </p>
    </div>
  );
}

const nameOf = ({ name, kind }: VoiceHere): string => (kind === 'system' ? 'This machine’s voice' : name);
const meaningOf = ({ kind, engine, phrases }: VoiceHere): string =>
  kind === 'recorded' ? `Recorded here, ${phrases === 1 ? '1 phrase' : `${phrases} phrases`}.` : `By ${engine}.`;
