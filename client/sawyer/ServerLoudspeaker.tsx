import { useEffect, useState } from 'preact/hooks';
import type { LoudspeakerState } from '../../server/wire/kept/voices.ts';
import { Note } from '../kit/parts/Note.tsx';
import { DoneShape, EarShape } from '../kit/parts/noticeShapes.tsx';
import { serverLoudspeaker, type Told } from '../voice/askServer.ts';

/** The loudspeaker of the server's own machine, where it has one: played, heard, confirmed. */
export function ServerLoudspeaker(props: {
  /** As the run's list of listeners has it: a change there is a reason to look again. */
  readonly hearing: string | undefined;
  /** While calls come, the test words are not offered: they would be heard for one. */
  readonly isBusy: boolean;
}) {
  const [state, setState] = useState<LoudspeakerState | null>(null);
  const [isPlaying, setPlaying] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);

  function take(told: Told<LoudspeakerState>): void {
    if (told.ok) setState(told.value);
    setTrouble(told.ok || told.status === 404 || told.status === 403 ? null : told.error.message);
  }
  useEffect(() => void serverLoudspeaker.state().then(take), [props.hearing]);

  async function play(): Promise<void> {
    setPlaying(true);
    take(await serverLoudspeaker.test());
    setPlaying(false);
  }

  if (trouble !== null) return <Note kind="alarm">{trouble}</Note>;
  if (state === null) return null;
  const { hearing, tested, why } = state;
  return (
    <div class="sound-check stack">
      {why !== null && (
        <Note kind="alarm" word="Not heard">
          The server’s loudspeaker: {why}
        </Note>
      )}
      <div class="row">
        {!props.isBusy && (
          <button
            type="button"
            class={hearing !== 'confirmed' && !tested ? 'button-strong' : ''}
            disabled={isPlaying}
            onClick={() => void play()}
          >
            <EarShape /> {isPlaying ? 'Playing…' : 'Play the test words there'}
          </button>
        )}
        {tested && hearing !== 'confirmed' && !isPlaying && (
          <button type="button" class="button-strong" onClick={() => void serverLoudspeaker.confirm().then(take)}>
            <DoneShape /> I heard it
          </button>
        )}
      </div>
    </div>
  );
}
