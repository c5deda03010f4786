import { useEffect, useRef } from 'preact/hooks';
import type { Phase } from '../../server/core/run/engine/state.ts';
import { useStore } from '../kit/link/store.ts';
import { DoneShape, FeedingShape, WrongShape } from '../kit/parts/noticeShapes.tsx';
import type { Deeds, PedalDeed } from './pedalFeet.ts';

const IS_ASKED_WITHOUT_SOUND: ReadonlySet<string> = new Set(['sound-not-confirmed', 'nobody-hears']);

/** What was heard of the foot, the scanner and the buttons last, and what came of it. */
export function HeardLine(props: {
  readonly deeds: Deeds;
  /** What the run is in: before the start, what is asked without sound is the start. */
  readonly phase: Phase;
  /** Whether the blade's square is still asked for. */
  readonly needsSquare: boolean;
}) {
  const { deeds, phase, needsSquare } = props;
  const isReady = phase === 'ready';
  const deed = useStore(deeds.last, (each) => each.deed);
  const isMended = deed?.answer?.ok === false && deed.answer.error.code === 'square-first' && !needsSquare;
  const isPast = isMended || (deed?.answer?.ok === false && deed.phase !== phase);
  const isAsked = deed?.answer?.ok === false && !isPast && IS_ASKED_WITHOUT_SOUND.has(deed.answer.error.code);
  const line = useRef<HTMLDivElement>(null);
  // On a telephone it stands below what the screen shows, and the press would seem to do nothing.
  useEffect(() => {
    if (isAsked) line.current?.scrollIntoView({ block: 'nearest' });
  }, [isAsked, deed]);
  function goOnWithoutSound(): void {
    // The stop must be in sight before the wood moves.
    window.scrollTo({ top: 0 });
    if (isReady) deeds.start(true);
    else deeds.resume(true);
  }
  if (deed === null || isPast)
    return (
      <p class="heard soft" aria-live="polite">
        {isReady ? 'Try the pedal: each press is shown here.' : 'Each press is shown here.'}
      </p>
    );
  const { answer } = deed;
  const isWell = answer?.ok === true || isSeen(deed);
  return (
    <div class="heard" aria-live="polite" ref={line}>
      {answer === null ? <FeedingShape /> : isWell ? <DoneShape /> : <WrongShape />}
      <div>
        <strong>{deed.heard}</strong>
        {whatCameOfIt(deed)}
        {isAsked && (
          <p class="row">
            <button type="button" onClick={goOnWithoutSound}>
              {isReady ? 'Start without sound' : 'Resume without sound'}
            </button>
          </p>
        )}
      </div>
    </div>
  );
}

/** Before the start nothing is taken: that it was seen is all that a trial asks. */
const isSeen = ({ isTrial, answer }: PedalDeed): boolean =>
  isTrial && answer?.ok === false && answer.error.code === 'not-feeding';

function whatCameOfIt(deed: PedalDeed): string {
  const { answer } = deed;
  if (answer === null) return ' …';
  if (answer.ok) return ', taken.';
  if (isSeen(deed)) return ', seen.';
  // The notice above says the rest, on every page.
  return answer.error.code === 'too-soon' ? ', not counted.' : `, not taken: ${answer.error.message}`;
}
