import { useEffect, useState } from 'preact/hooks';
import { placeText } from '../../server/core/run/view/placeText.ts';
import { canBeRead, type ListedRun, type RunView, type UnreadableRun } from '../../server/wire/message/messages.ts';
import { dayAndTime } from '../kit/figures/shownFigures.ts';
import { MODE_WORDS, STATE_WORDS } from '../kit/figures/words.ts';
import { api, journalAddress } from '../kit/link/api.ts';
import { DamageLine } from '../kit/parts/DamageLine.tsx';
import { CareShape, STATE_SHAPES } from '../kit/parts/noticeShapes.tsx';

const SHOWN = 12;

export function RunsList() {
  const [runs, setRuns] = useState<readonly ListedRun[] | null>(null);
  const [all, setAll] = useState(false);
  useEffect(() => {
    void api.runs().then((asked) => setRuns(asked.ok ? asked.value : []));
  }, []);
  if (runs === null) return null;
  const shown = all ? runs : runs.slice(0, SHOWN);
  return (
    <section class="stack" id="runs">
      <h2>Earlier runs</h2>
      {runs.length === 0 && <p class="soft">None yet.</p>}
      <ul class="runs">
        {shown.map((run) =>
          canBeRead(run) ? <RunRow key={run.run} run={run} /> : <UnreadableRow key={run.run} run={run} />,
        )}
      </ul>
      {shown.length < runs.length && (
        <button type="button" onClick={() => setAll(true)}>
          Show all {runs.length}
        </button>
      )}
    </section>
  );
}

function UnreadableRow({ run }: { readonly run: UnreadableRun }) {
  return (
    <li class="run">
      <span class="run-state">
        <CareShape /> Damaged
      </span>
      <span class="run-title">
        <strong>{run.title ?? `Run ${run.run}`}</strong>
        <span class="soft"> {run.madeAtMs === null ? '' : dayAndTime(run.madeAtMs)}</span>
        <DamageLine damage={run.record.damage} />
      </span>
      <span class="row">
        <a class="button" href={journalAddress(run.run)} download={`${run.run}.jsonl`}>
          Save what is left
        </a>
      </span>
    </li>
  );
}

function RunRow({ run }: { readonly run: RunView }) {
  const Shape = STATE_SHAPES[run.state];
  const isOver = run.state === 'finished';
  return (
    <li class="run">
      <span class="run-state">
        <Shape /> {STATE_WORDS[run.state]}
      </span>
      <span class="run-title">
        <strong>{run.title}</strong>
        <span class="soft">
          {' '}
          {MODE_WORDS[run.mode]}, {dayAndTime(run.madeAtMs)}. {placeText(run)}
          {run.record.isChecked ? '' : ', made before checksums'}
        </span>
        <DamageLine damage={run.record.damage} />
      </span>
      <span class="row">
        {!isOver && (
          <a class="button" href={`/sawyer?run=${run.run}`}>
            Go on
          </a>
        )}
        <a class="button" href={`/codes?run=${run.run}`}>
          Codes
        </a>
        <a class="button" href={`/record?run=${run.run}`}>
          Record
        </a>
      </span>
    </li>
  );
}
