import { useEffect, useState } from 'preact/hooks';
import { feedText, slowerFeedMPerMin } from '../../../server/core/figures/feeds.ts';
import { againstRun } from '../../../server/core/plan/forbids.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { ROUTINES, type Routine, type RunMode, USUAL_ROUTINE } from '../../../server/core/routine/routine.ts';
import { makeSetup } from '../../../server/core/run/makeSetup.ts';
import { ROUTINE_WORDS } from '../../../server/core/text/routineWords.ts';
import { phrasesOfRun } from '../../../server/core/words/phrases.ts';
import type { FeedChoice } from '../../../server/wire/kept/journalLine.ts';
import { api, type JobSent, type Refusal } from '../../kit/link/api.ts';
import { Note } from '../../kit/parts/Note.tsx';
import { phrasesOfPlan } from '../../voice/phraseSource.ts';
import { FeedField } from '../plan/FeedField.tsx';
import { Choice } from './Choice.tsx';
import { InSpite } from './InSpite.tsx';
import { OWN_VOICE, VoiceChoice } from './VoiceChoice.tsx';
import { isOfVoice, VoiceMissing } from './VoiceMissing.tsx';

type Feed = 'pedal' | 'scan' | 'wheel' | 'simulated';

const MODES = [
  ['pair', 'Pair', 'One feeds, one is at the handwheel.'],
  ['solo', 'Solo', 'The handwheel is within reach while feeding, or the feed is mechanical.'],
  ['rehearsal', 'Rehearsal', 'No wood. A handwheel on the wheel page is turned instead.'],
] as const;
const FEEDS = [
  ['pedal', 'Pedal', 'A press says: this mark is at the blade now.'],
  ['scan', 'Scanned marks', 'A hand scanner reads the printed code of each mark.'],
  ['wheel', 'Measuring wheel', 'It counts the stock’s travel and sends that to this server.'],
  ['simulated', 'Simulated', 'The program moves the stock. For rehearsals.'],
] as const;

const CHOICES = ROUTINES.map((name) => [name, ROUTINE_WORDS[name].title, ROUTINE_WORDS[name].meaning] as const);

/** The last step of planning: who is there and what feeds; then the voice is rendered and the run opens. */
export function StartRun(props: {
  readonly plan: Plan;
  readonly job: JobSent;
  /** The routine that a cure asks for: it needs a measuring wheel. */
  readonly wanted: Routine | null;
}) {
  const { plan, job, wanted } = props;
  const [mode, setMode] = useState<RunMode>('pair');
  const [feed, setFeed] = useState<Feed>(wanted === null ? 'pedal' : 'wheel');
  const [routine, setRoutine] = useState<Routine>(wanted ?? USUAL_ROUTINE);
  const [mPerMin, setMPerMin] = useState(() =>
    slowerFeedMPerMin(Math.min(plan.crew.feedMPerMin, plan.pace.limitMPerMin), plan.notation),
  );
  const [voice, setVoice] = useState(OWN_VOICE);
  const [words, setWords] = useState('');
  const [making, setMaking] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const isCounted = feed === 'simulated' || feed === 'wheel';
  // Without a count of travel there are only the marks.
  const chosen: Routine = isCounted ? routine : USUAL_ROUTINE;
  const limit = limitOf(plan, chosen);
  const isForbidden = againstRun(plan, { mode, routine: chosen }).length > 0;

  const list = () => phrasesOfPlan(plan, mode, chosen);

  function choose(chosen: RunMode): void {
    setMode(chosen);
    if (chosen === 'rehearsal') setFeed('simulated');
    else if (feed === 'simulated') setFeed('pedal');
  }

  async function make(): Promise<void> {
    setMaking(true);
    setRefusal(null);
    const choice: FeedChoice =
      feed === 'simulated'
        ? { kind: 'simulated', mPerMin, seed: 1 + Math.floor(Math.random() * 1e6) }
        : { kind: 'external' };
    const ask = { ...job, mode, routine: chosen, feed: choice, ...(isForbidden ? { despite: words } : {}) };
    const asked = await api.makeRun(voice === OWN_VOICE ? ask : Object.assign(ask, { voice }));
    if (asked.ok) {
      location.assign(`/sawyer?run=${asked.value.run}`);
      return;
    }
    setMaking(false);
    setRefusal(asked);
  }

  return (
    <section class="stack start-run" id="start-run">
      <h2>Start a run</h2>
      <Choice name="mode" legend="Who is there" choices={MODES} chosen={mode} onChoose={choose} />
      <Choice name="feed" legend="What tells where the stock is" choices={FEEDS} chosen={feed} onChoose={setFeed} />
      {feed === 'scan' && (
        <Note kind="plain">The codes of the marks are printed from the sawyer page, once the run is made.</Note>
      )}
      {feed === 'simulated' && (
        <FeedField notation={plan.notation} mPerMin={mPerMin} onFeed={setMPerMin}>
          <span class="soft">
            {limit === null
              ? 'Nothing limits this routine here.'
              : `The plan allows ${feedText(limit, plan.notation)}, ${chosen}.`}
            {limit !== null && mPerMin > limit ? ' This is faster: calls will be missed or the tilt late.' : ''}
          </span>
        </FeedField>
      )}
      {feed === 'wheel' && (
        <Note kind="plain">
          Its program sends what it has counted as text frames to <code>/feed?run=…</code>,{' '}
          {'{"kind":"travel","mm":1234.5}'}, twenty times a second or more. The run’s letters stand in the address of
          its pages.
        </Note>
      )}
      {isCounted && (
        <Choice
          name="routine"
          legend="How the tilt is turned"
          choices={CHOICES}
          chosen={routine}
          onChoose={setRoutine}
        />
      )}
      <VoiceChoice chosen={voice} list={list} onChoose={setVoice} />
      <InSpite plan={plan} mode={mode} routine={chosen} words={words} onWords={setWords} />
      {feed === 'simulated' && mode !== 'rehearsal' && (
        <Note kind="care">A simulated feed knows nothing of real wood. Keep wood away from the blade in this run.</Note>
      )}
      {feed !== 'simulated' && mode === 'rehearsal' && (
        <Note kind="plain">A rehearsal with your own pedal or scanner: no wood, blade standing.</Note>
      )}
      {refusal !== null && (
        <Note kind="alarm" word="No run made">
          {refusal.problems.length === 0 ? (
            refusal.error.message
          ) : refusal.problems.every(isOfVoice) ? (
            <VoiceMissing voice={voice} problems={refusal.problems} list={list} />
          ) : (
            refusal.problems
              .map((problem) => `${problem.at.field ?? problem.at.file ?? 'job'}: ${problem.wanted}`)
              .join('. ')
          )}
        </Note>
      )}
      {making ? (
        <Rendering phrases={phrasesOfRun(makeSetup(plan, mode, {}, chosen)).length} />
      ) : (
        <div class="row">
          <button
            type="button"
            class="button-strong start-button"
            disabled={isForbidden && words.trim() === ''}
            onClick={() => void make()}
          >
            Make this run
          </button>
          <span class="soft">Nothing moves yet: the run stands ready until it is started at the saw.</span>
        </div>
      )}
    </section>
  );
}

/** Of the routine that is chosen; a plan of before knows only mark by mark's. */
function limitOf({ pace }: Plan, routine: Routine): number | null {
  const found = pace.routines?.[routine];
  return found === undefined ? pace.limitMPerMin : found.limitMPerMin;
}

/** Every phrase is spoken once, into memory, before wood moves. How long that takes depends on the machine; what is sure is that it goes on. */
function Rendering({ phrases }: { readonly phrases: number }) {
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    const ticking = setInterval(() => setSeconds((before) => before + 1), 1000);
    return () => clearInterval(ticking);
  }, []);
  return (
    <div class="rendering" role="status">
      <p>
        <strong>Rendering the voice:</strong> {phrases} phrases, {seconds} s.
      </p>
      <progress aria-label="Rendering the voice" />
    </div>
  );
}
