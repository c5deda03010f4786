import { useEffect, useRef, useState } from 'preact/hooks';
import { Note } from '../parts/Note.tsx';
import { DoneShape, EarShape } from '../parts/noticeShapes.tsx';
import type { Loudspeaker } from '../sound/loudspeaker.ts';
import type { Measured } from './earSettings.ts';
import { latenessOf, SCREEN_MS } from './lateness.ts';
import { irregularPauseMs, TAPS_GIVEN, TapLine, tapSeries } from './taps.ts';

type Series = 'heard' | 'seen';
type Stage =
  | { readonly at: 'begin' | Series }
  | { readonly at: 'between'; readonly heard: readonly number[] }
  | { readonly at: 'failed'; readonly why: 'too few' | 'too uneven' };

const FLASH_MS = 140;

/** "Tap when you hear it", then "tap when you see it": how late this output is, without a microphone. */
export function LatenessTest(props: {
  readonly loudspeaker: Loudspeaker;
  readonly onMeasured: (measured: Measured) => void;
  readonly onLeave: () => void;
}) {
  const { loudspeaker } = props;
  const [stage, setStage] = useState<Stage>({ at: 'begin' });
  const [done, setDone] = useState(0);
  const pad = useRef<HTMLButtonElement>(null);
  const taps = useRef(new TapLine());
  const ending = useRef(new AbortController());
  useEffect(() => () => ending.current.abort(), []);

  const run = (give: () => number | Promise<number>): Promise<readonly number[]> =>
    tapSeries({ taps: taps.current, give, pauseMs: irregularPauseMs, told: setDone, signal: ending.current.signal });

  async function hear(): Promise<void> {
    setDone(0);
    setStage({ at: 'heard' });
    await loudspeaker.wake();
    const heard = await run(() => loudspeaker.click());
    if (!ending.current.signal.aborted) setStage({ at: 'between', heard });
  }

  async function see(heard: readonly number[]): Promise<void> {
    setDone(0);
    setStage({ at: 'seen' });
    const seen = await run(() => flash(pad.current));
    if (ending.current.signal.aborted) return;
    const lateness = latenessOf(heard, seen);
    if (lateness.ok) props.onMeasured({ extraMs: lateness.extraMs, doubtMs: lateness.doubtMs });
    else setStage({ at: 'failed', why: lateness.why });
  }

  return (
    <div class="tap-test">
      <Says stage={stage} />
      {stage.at === 'heard' || stage.at === 'seen' ? (
        <>
          <button
            type="button"
            class="tap-pad"
            ref={pad}
            onPointerDown={({ timeStamp }) => taps.current.tapped(timeStamp)}
            onKeyDown={({ code, repeat, timeStamp }) => {
              if (!repeat && (code === 'Space' || code === 'Enter')) taps.current.tapped(timeStamp);
            }}
          >
            Tap
          </button>
          <p class="tap-count figures" role="status">
            {done} of {TAPS_GIVEN}
          </p>
        </>
      ) : (
        <button
          type="button"
          class="button-strong tap-begin"
          onClick={() => void (stage.at === 'between' ? see(stage.heard) : hear())}
        >
          {stage.at === 'between' ? (
            <>
              <DoneShape /> Now by eye
            </>
          ) : (
            <>
              <EarShape /> {stage.at === 'failed' ? 'Again' : 'Begin'}
            </>
          )}
        </button>
      )}
      <button type="button" onClick={props.onLeave}>
        Leave it
      </button>
    </div>
  );
}

function Says({ stage }: { readonly stage: Stage }) {
  switch (stage.at) {
    case 'begin':
      return <p class="tap-say">Wear it as at work. {TAPS_GIVEN} clicks come, none in time with the last.</p>;
    case 'heard':
      return <p class="tap-say">Tap when you hear it.</p>;
    case 'between':
      return <p class="tap-say">The same by eye: that takes your own time out of it.</p>;
    case 'seen':
      return <p class="tap-say">Tap when you see it flash.</p>;
    case 'failed':
      return (
        <Note kind="care" word="No figure">
          {stage.why === 'too few' ? 'Too few taps were in answer to a click.' : 'The taps came too unevenly.'} What was
          kept before still holds.
        </Note>
      );
  }
}

/** Lights the pad; settles with the moment at which the screen shows it. */
function flash(pad: HTMLElement | null): Promise<number> {
  return new Promise((settle) =>
    requestAnimationFrame((frameMs) => {
      pad?.classList.add('tap-lit');
      setTimeout(() => pad?.classList.remove('tap-lit'), FLASH_MS);
      settle(frameMs + SCREEN_MS);
    }),
  );
}
