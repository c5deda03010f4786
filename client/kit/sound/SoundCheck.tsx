import { useStore } from '../link/store.ts';
import { Note } from '../parts/Note.tsx';
import { DoneShape, EarShape } from '../parts/noticeShapes.tsx';
import type { Loudspeaker } from './loudspeaker.ts';

/** From silent to confirmed: fetch, play the test words, "I heard it"; and one button to bring a sleeping sound back. */
export function SoundCheck(props: {
  readonly loudspeaker: Loudspeaker;
  /** While calls come, the test words are not offered: they would be heard for one. */
  readonly isBusy: boolean;
}) {
  const { loudspeaker } = props;
  const { hearing, ready, wanted, refused, tested } = useStore(loudspeaker.state, (each) => each);
  switch (hearing) {
    case 'loading':
      return (
        <div class="sound-check" role="status">
          <p>
            Fetching the words: {ready} of {wanted}
          </p>
          {refused[0] !== undefined && (
            <Note kind="alarm">
              The server has no sound for “{refused[0]}”{refused.length > 1 ? ` and ${refused.length - 1} more` : ''}.
              Make the run anew, or record the words again.
            </Note>
          )}
        </div>
      );
    case 'silent':
      return (
        <div class="sound-check row">
          <button type="button" class={tested ? '' : 'button-strong'} onClick={() => void loudspeaker.playTest()}>
            <EarShape /> {tested ? 'Play again' : 'Play the test words'}
          </button>
          {tested && (
            <button type="button" class="button-strong" onClick={() => loudspeaker.confirm()}>
              <DoneShape /> I heard it
            </button>
          )}
        </div>
      );
    case 'suspended':
      return (
        <div class="sound-check row">
          <button type="button" class="button-strong sound-wake" onClick={() => void loudspeaker.wake()}>
            <EarShape /> Sound is asleep: wake it
          </button>
        </div>
      );
    case 'confirmed':
      return (
        <div class="sound-check row">
          <span>
            <EarShape /> Sound confirmed
          </span>
          {!props.isBusy && (
            <button type="button" onClick={() => void loudspeaker.playTest()}>
              Play the test words
            </button>
          )}
        </div>
      );
  }
}
