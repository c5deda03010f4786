import { useEffect, useState } from 'preact/hooks';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { Debrief } from '../../server/core/run/view/debrief.ts';
import { placeText } from '../../server/core/run/view/placeText.ts';
import type { JournalLine } from '../../server/wire/kept/journalLine.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { dayAndTime, degFigure, lengthsIn } from '../kit/figures/shownFigures.ts';
import { MODE_WORDS, STATE_WORDS } from '../kit/figures/words.ts';
import { api, journalAddress, type Refusal } from '../kit/link/api.ts';
import { Head } from '../kit/parts/Head.tsx';
import { MadeInSpite } from '../kit/parts/MadeInSpite.tsx';
import { Note } from '../kit/parts/Note.tsx';
import { STATE_SHAPES } from '../kit/parts/noticeShapes.tsx';
import { RunPapers } from '../kit/parts/RunPapers.tsx';
import { DebriefTable } from './DebriefTable.tsx';
import { HandPanel } from './HandPanel.tsx';
import { TiltDrawing } from './TiltDrawing.tsx';
import { Timeline } from './Timeline.tsx';

interface RunRecord {
  readonly view: RunView;
  readonly plan: Plan;
  readonly debrief: Debrief;
  readonly lines: readonly JournalLine[];
}

/** What happened in a run, for reading afterwards. */
export function RecordPage({ run }: { readonly run: string }) {
  const [record, setRecord] = useState<RunRecord | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  async function read(): Promise<void> {
    const [view, plan, debrief, lines] = await Promise.all([
      api.run(run),
      api.planOf(run),
      api.debrief(run),
      api.journal(run),
    ]);
    for (const asked of [view, plan, debrief, lines]) if (!asked.ok) return setRefusal(asked);
    if (view.ok && plan.ok && debrief.ok && lines.ok) {
      setRefusal(null);
      setRecord({ view: view.value, plan: plan.value, debrief: debrief.value, lines: lines.value });
    }
  }
  useEffect(() => void read(), [run]);

  return (
    <>
      <Head>
        {record !== null && record.view.state !== 'finished' && <a href={`/sawyer?run=${run}`}>Sawyer page</a>}
        <a href="/">Start page</a>
      </Head>
      <main class="record">
        {refusal !== null && <Note kind="alarm">{refusal.error.message}</Note>}
        {record !== null && <RecordView record={record} onReadAgain={() => void read()} />}
      </main>
    </>
  );
}

function RecordView({ record, onReadAgain }: { readonly record: RunRecord; readonly onReadAgain: () => void }) {
  const { view, plan, debrief, lines } = record;
  const Shape = STATE_SHAPES[view.state];
  const called = lines.filter((line) => line.kind === 'called' && line.mark !== undefined).length;
  const stops = lines.filter(
    (line) =>
      line.kind === 'stopped' || (line.kind === 'pressed' && line.gesture === 'stop') || line.kind === 'signal-lost',
  ).length;
  const missed = lines.filter((line) => line.kind === 'missed').length;
  return (
    <>
      <header class="record-head">
        <div>
          <h1>{view.title}</h1>
          <p class="soft">
            {MODE_WORDS[view.mode]}, {dayAndTime(view.madeAtMs)}
          </p>
        </div>
        <div class="row">
          {view.state !== 'finished' && (
            <button type="button" onClick={onReadAgain}>
              Read again
            </button>
          )}
          <RunPapers run={view.run} papers={['record']} />
          <a class="button" href={journalAddress(view.run)} download={`${view.run}.jsonl`}>
            Save the journal
          </a>
        </div>
      </header>
      {view.record.damage !== null && (
        <Note kind="alarm" word="Record damaged">
          {view.record.damage.message} What can be read stands below; the timeline names each line that is missing or
          changed.
        </Note>
      )}
      {!view.record.isChecked && (
        <p class="soft">This run was made before checksums: a change of its record would not be noticed.</p>
      )}
      <MadeInSpite plan={plan} />
      <dl class="sums">
        <div>
          <dt>State</dt>
          <dd>
            <Shape /> {STATE_WORDS[view.state]}
          </dd>
        </div>
        <div>
          <dt>Marks</dt>
          <dd>{placeText(view)}</dd>
        </div>
        <div>
          <dt>Bevels called</dt>
          <dd>{called}</dd>
        </div>
        <div>
          <dt>Not called</dt>
          <dd>{missed}</dd>
        </div>
        <div>
          <dt>Stops</dt>
          <dd>{stops}</dd>
        </div>
        {debrief.rmsErrorDeg !== null && (
          <div>
            <dt>Tilt off, rms</dt>
            <dd>{degFigure(debrief.rmsErrorDeg)}°</dd>
          </div>
        )}
        {debrief.worst !== null && (
          <div>
            <dt>Tilt off, worst</dt>
            <dd>
              {degFigure(Math.abs(debrief.worst.errorDeg))}°{' '}
              <span class="soft">at {lengthsIn(plan.notation).alongText(debrief.worst.positionMm)}</span>
            </dd>
          </div>
        )}
      </dl>
      {debrief.measured && debrief.trace.length > 1 ? (
        <section class="sheet">
          <h2>The tilt along the frame</h2>
          <TiltDrawing plan={plan} debrief={debrief} />
        </section>
      ) : (
        <p class="soft">
          {debrief.measured
            ? 'Nothing counted the travel, so how far off the tilt was is known at the marks only.'
            : 'The tilt was not measured in this run, so how far off it was is not known.'}
        </p>
      )}
      {view.state === 'finished' && debrief.measured && <HandPanel run={view.run} plan={plan} />}
      <DebriefTable plan={plan} debrief={debrief} />
      <Timeline lines={lines} notation={plan.notation} />
    </>
  );
}
