import { useEffect, useState } from 'preact/hooks';
import { LENGTHS_ARE } from '../../server/core/figures/notation.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { Station } from '../../server/core/run/engine/state.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { stripLetters } from '../../server/wire/message/markCode.ts';
import { lengthsIn, readoutFigure } from '../kit/figures/shownFigures.ts';
import { api, type MarkCodeImage, type Refusal } from '../kit/link/api.ts';
import { Head } from '../kit/parts/Head.tsx';
import { Note } from '../kit/parts/Note.tsx';
import { RunPapers } from '../kit/parts/RunPapers.tsx';

interface Sheet {
  readonly plan: Plan;
  readonly codes: readonly MarkCodeImage[];
}

/** A plain sheet of the codes of a run's marks, in the order in which they come to the blade. */
export function CodesPage({ run }: { readonly run: string }) {
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [size, setSize] = useState<'A4' | 'Letter'>('A4');
  useEffect(() => {
    void Promise.all([api.planOf(run), api.codes(run)]).then(([plan, codes]) => {
      if (!plan.ok) setRefusal(plan);
      else if (!codes.ok) setRefusal(codes);
      else setSheet({ plan: plan.value, codes: codes.value });
    });
  }, [run]);

  return (
    <>
      <div class="no-print">
        <Head>
          <a href={`/sawyer?run=${run}`}>Sawyer page</a>
        </Head>
      </div>
      <main class={`codes codes-${size}`}>
        {refusal !== null && <Note kind="alarm">{refusal.error.message}</Note>}
        {sheet !== null && (
          <>
            <div class="no-print row">
              <button type="button" class="button-strong" onClick={() => window.print()}>
                Print
              </button>
              <label class="row">
                Paper
                <select
                  value={size}
                  onChange={(event) => setSize(event.currentTarget.value === 'Letter' ? 'Letter' : 'A4')}
                >
                  <option>A4</option>
                  <option>Letter</option>
                </select>
              </label>
              <span class="soft">
                Print at 100 %. Cut out, and pin each code at its mark on a lath clear of the cut.
              </span>
            </div>
            <div class="no-print row">
              <RunPapers run={run} papers={['strip', 'sheet', 'which-way']} />
              <span class="soft">The mark strip has the codes at their places: put it on a lath as it is.</span>
            </div>
            <CodeSheet sheet={sheet} />
          </>
        )}
      </main>
    </>
  );
}

function CodeSheet({ sheet }: { readonly sheet: Sheet }) {
  const { plan, codes } = sheet;
  const stations = makeSetup(plan, 'pair', {}).stations;
  const other = plan.leads === 'heel' ? 'head' : 'heel';
  return (
    <>
      <header class="codes-head">
        <h1>{plan.title}</h1>
        <p>
          Codes of the marks, strip {stripLetters(plan)}. The <strong>{plan.leads} leads</strong>: mark{' '}
          {stations[0]?.mark} comes to the blade first, the {other} last. Places along the stock from its first mark,{' '}
          {LENGTHS_ARE[plan.notation]}.
        </p>
      </header>
      <ol class="codes-list">
        {stations.map((station) => (
          <CodeCard
            key={station.mark}
            station={station}
            plan={plan}
            code={codes.find((code) => code.mark === station.mark)}
          />
        ))}
      </ol>
    </>
  );
}

function CodeCard(props: { readonly station: Station; readonly plan: Plan; readonly code: MarkCodeImage | undefined }) {
  const { station, plan, code } = props;
  return (
    <li class="code">
      <p class="code-mark figures">
        <span>{station.mark}</span>
        <strong>{readoutFigure(station.callDeg, plan.saw.readoutDeg)}°</strong>
        <span class="soft">{lengthsIn(plan.notation).along(station.positionMm)}</span>
      </p>
      {code !== undefined && <img src={code.url} alt={`Code of mark ${station.mark}`} />}
      <p class="code-text">{code?.text}</p>
    </li>
  );
}
