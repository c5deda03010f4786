import { useEffect, useState } from 'preact/hooks';
import type { Station } from '../../server/core/run/engine/state.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { FeedingShape, StoppedShape } from '../kit/parts/noticeShapes.tsx';
import type { Deeds } from './pedalFeet.ts';

/** Stop feed is always in the same place and always the largest; the one thing to do next stands beside it. */
export function Controls(props: {
  readonly view: RunView;
  readonly deeds: Deeds;
  readonly stations: readonly Station[];
}) {
  const { view, deeds } = props;
  const canPress = view.takesPress && view.feed === 'external' && view.nextMark !== null;
  return (
    <section class="controls" aria-label="Controls">
      <button type="button" class="stop" disabled={view.state === 'ready'} onClick={deeds.stop}>
        <StoppedShape /> Stop feed
      </button>
      <Next view={view} deeds={deeds} canPress={canPress} />
      <SmallControls view={view} deeds={deeds} />
    </section>
  );
}

function Next(props: { readonly view: RunView; readonly deeds: Deeds; readonly canPress: boolean }) {
  const { view, deeds } = props;
  switch (view.state) {
    case 'ready':
      return (
        <button
          type="button"
          class={view.square?.seenDeg === null ? 'next' : 'next button-strong'}
          onClick={() => deeds.start(false)}
        >
          <FeedingShape /> Start
        </button>
      );
    case 'stopped':
      if (!view.isPlaceKnown)
        return (
          <a class="button button-strong next" href="#at-blade">
            Say which mark is at the blade
          </a>
        );
      return (
        <button type="button" class="next button-strong" onClick={() => deeds.resume(false)}>
          <FeedingShape /> Resume
        </button>
      );
    case 'feeding':
    case 'lost':
      if (props.canPress)
        return (
          <button type="button" class="next" onClick={() => deeds.pedal('press')}>
            Mark {view.nextMark} is at the blade
          </button>
        );
      return view.state === 'lost' ? (
        <button type="button" class="next button-strong" onClick={() => deeds.resume(false)}>
          <FeedingShape /> Resume
        </button>
      ) : (
        <p class="next next-word">The marks come by themselves.</p>
      );
    case 'finished':
      return (
        <a class="button button-strong next" href={`/record?run=${view.run}`}>
          Read the record
        </a>
      );
  }
}

/**
 * Again, back, and the end of a run before its last mark: asked twice, because nothing follows a finished run. The question takes
 * the row's own place, and "No" the place of the finger that asked.
 */
function SmallControls({ view, deeds }: { readonly view: RunView; readonly deeds: Deeds }) {
  const [isAsking, setAsking] = useState(false);
  useEffect(() => setAsking(false), [view.state]);
  if (isAsking)
    return (
      <div class="controls-small">
        <button type="button" class="finish-yes" onClick={deeds.finish}>
          Yes, end this run
        </button>
        <button type="button" onClick={() => setAsking(false)}>
          No
        </button>
      </div>
    );
  return (
    <div class="controls-small">
      <button type="button" disabled={view.state !== 'feeding'} onClick={() => deeds.pedal('again')}>
        Again
      </button>
      <button
        type="button"
        disabled={!view.takesPress || view.feed === 'simulated'}
        onClick={() => deeds.pedal('back')}
      >
        Back
      </button>
      {view.state === 'finished' ? (
        <a class="button" href="/">
          Next run
        </a>
      ) : (
        <button type="button" onClick={() => setAsking(true)}>
          Finish early
        </button>
      )}
    </div>
  );
}
