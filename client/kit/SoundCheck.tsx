import type { Loudspeaker } from './loudspeaker.ts';
import { DoneShape, EarShape } from './shapes.tsx';
import { useStore } from './store.ts';

/** From silent to confirmed: fetch, play the test words, "I heard it"; and one button to bring a sleeping sound back. */
export function SoundCheck(props: {
  readonly loudspeaker: Loudspeaker;
  /** While calls come, the test words are not offered: they would be heard for one. */
  readonly isBusy: boolean;
}) {
  const { loudspeaker } = props;
  const { hearing, ready, wanted, tested } = useStore(loudspeaker.state, (each) => each);
  switch (hearing) {
    case 'loading':
      return (
        <p class="sound-check" role="status">
          Fetching the words: {ready} of {wanted}
        </p>
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
