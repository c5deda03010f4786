import type { Phase } from '../../server/core/run/state.ts';
import { DoneShape, FeedingShape, WrongShape } from '../kit/shapes.tsx';
import { useStore } from '../kit/store.ts';
import type { Deed, Deeds } from './pedalFeet.ts';

/** What was heard of the foot, the scanner and the buttons last, and what came of it. */
export function HeardLine(props: {
  readonly deeds: Deeds;
  readonly phase: Phase;
  readonly onStartWithoutSound: () => void;
}) {
  const deed = useStore(props.deeds.last, (each) => each.deed);
  const isPast = deed?.answer?.ok === false && deed.phase !== props.phase;
  if (deed === null || isPast)
    return (
      <p class="heard soft" aria-live="polite">
        Try the pedal: each press is shown here.
      </p>
    );
  const { answer } = deed;
  const isWell = answer?.ok === true || isSeen(deed);
  return (
    <div class="heard" aria-live="polite">
      {answer === null ? <FeedingShape /> : isWell ? <DoneShape /> : <WrongShape />}
      <div>
        <strong>{deed.heard}</strong>
        {whatCameOfIt(deed)}
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

/** Before the start nothing is taken: that it was seen is all that a trial asks. */
const isSeen = ({ isTrial, answer }: Deed): boolean =>
  isTrial && answer?.ok === false && answer.error.code === 'not-feeding';

function whatCameOfIt(deed: Deed): string {
  const { answer } = deed;
  if (answer === null) return ' …';
  if (answer.ok) return ', taken.';
  if (isSeen(deed)) return ', seen.';
  // The notice above says the rest, on every page.
  return answer.error.code === 'too-soon' ? ', not counted.' : `, not taken: ${answer.error.message}`;
}
