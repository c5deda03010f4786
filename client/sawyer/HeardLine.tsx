import { DoneShape, FeedingShape, WrongShape } from '../kit/shapes.tsx';
import { useStore } from '../kit/store.ts';
import type { Deeds } from './pedalFeet.ts';

/** What was heard of the foot, the scanner and the buttons last, and what came of it. */
export function HeardLine(props: { readonly deeds: Deeds; readonly onStartWithoutSound: () => void }) {
  const deed = useStore(props.deeds.last, (each) => each.deed);
  if (deed === null)
    return (
      <p class="heard soft" aria-live="polite">
        Try the pedal: each press is shown here.
      </p>
    );
  const { answer } = deed;
  return (
    <div class="heard" aria-live="polite">
      {answer === null ? <FeedingShape /> : answer.ok ? <DoneShape /> : <WrongShape />}
      <div>
        <strong>{deed.heard}</strong>
        {answer === null ? ' …' : answer.ok ? ', taken.' : `, not taken: ${answer.error.message}`}
        {answer?.ok === false && answer.error.code === 'sound-not-confirmed' && (
          <p class="row">
            <button type="button" onClick={props.onStartWithoutSound}>
              Start without sound
            </button>
          </p>
        )}
      </div>
    </div>
  );
}
