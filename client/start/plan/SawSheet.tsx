/** What is done before a rip so that the saw tells the truth; and the trial on cheap stock, made from the job. */
import { useState } from 'preact/hooks';
import { lengthsFor } from '../../../server/core/figures/lengths.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { correctionSentences, trialSentences } from '../../../server/core/sawn/trialText.ts';
import { sawTruthLines } from '../../../server/core/text/sawCheckText.ts';
import type { TrialMade, TrialTold } from '../../../server/wire/job/trialJob.ts';
import { degFigure, lengthsIn } from '../../kit/figures/shownFigures.ts';
import { api, type JobSent, type Refusal } from '../../kit/link/api.ts';
import { asTable, MeasuredTable, MeasuredWrong } from './MeasuredTable.tsx';
import './sawTruth.css';

/** A trial that lies on the bench, and the job that it was made of. */
export interface TrialOnBench {
  readonly made: TrialMade;
  readonly whole: boolean;
  readonly of: { readonly name: string; readonly job: JobSent };
}

export function SawSheet(props: {
  readonly plan: Plan;
  readonly job: JobSent;
  readonly name: string;
  /** The trial that is on the bench now, if the plan is one's. */
  readonly trial: TrialOnBench | null;
  readonly onTrial: (trial: TrialOnBench) => void;
  readonly onBack: (trial: TrialOnBench) => void;
}) {
  const { plan, trial } = props;
  return (
    <section class="sheet stack saw-truth" id="saw-truth">
      <h2>The saw tells the truth</h2>
      <ol class="saw-truth-steps">
        {plan.sawTruth !== undefined && sawTruthLines(plan.sawTruth).map((text) => <li key={text}>{text}</li>)}
      </ol>
      {trial === null ? <MakeTrial {...props} /> : <TrialSheet trial={trial} plan={plan} onBack={props.onBack} />}
    </section>
  );
}

function MakeTrial(props: {
  readonly job: JobSent;
  readonly name: string;
  readonly onTrial: (trial: TrialOnBench) => void;
}) {
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isMaking, setMaking] = useState(false);
  async function make(whole: boolean): Promise<void> {
    setMaking(true);
    const asked = await api.trial(props.job, whole);
    setMaking(false);
    if (asked.ok) props.onTrial({ made: asked.value, whole, of: { name: props.name, job: props.job } });
    setRefusal(asked.ok ? null : asked);
  }
  return (
    <>
      <div class="row">
        <button type="button" disabled={isMaking} onClick={() => void make(false)}>
          Make the trial: the hardest stretch
        </button>
        <button type="button" disabled={isMaking} onClick={() => void make(true)}>
          Make the trial: the whole
        </button>
      </div>
      {refusal !== null && <MeasuredWrong refusal={refusal} />}
    </>
  );
}

function TrialSheet({
  trial,
  plan,
  onBack,
}: {
  readonly trial: TrialOnBench;
  readonly plan: Plan;
  readonly onBack: (trial: TrialOnBench) => void;
}) {
  const lengths = lengthsFor(plan.notation);
  const { along, inHead } = lengthsIn(plan.notation);
  const { measureAt } = trial.made.trial;
  return (
    <>
      <h3>This is the trial</h3>
      {trialSentences(trial.made.trial, lengths).map((text) => (
        <p key={text}>{text}</p>
      ))}
      <div class="row">
        <button type="button" onClick={() => onBack(trial)}>
          Back to the job itself
        </button>
      </div>
      <details>
        <summary>Where to measure: {measureAt.length} places</summary>
        <div class="scroll">
          <table>
            <thead>
              <tr>
                <th scope="col">Mark</th>
                <th scope="col">Along{inHead}</th>
                <th scope="col">Wanted</th>
              </tr>
            </thead>
            <tbody>
              {measureAt.map((place) => (
                <tr key={place.alongMm}>
                  <th scope="row">{place.mark ?? 'between'}</th>
                  <td>{along(place.alongMm)}</td>
                  <td>{degFigure(place.bevelDeg, 1)}°</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
      <TrialTells trial={trial} plan={plan} />
    </>
  );
}

function TrialTells({ trial, plan }: { readonly trial: TrialOnBench; readonly plan: Plan }) {
  const [text, setText] = useState('');
  const [errorDeg, setErrorDeg] = useState(0.3);
  const [told, setTold] = useState<TrialTold | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  async function ask(): Promise<void> {
    const asked = await api.trialMeasured(trial.of.job, { whole: trial.whole, measured: asTable(text), errorDeg });
    setTold(asked.ok ? asked.value : null);
    setRefusal(asked.ok ? null : asked);
  }
  return (
    <>
      <MeasuredTable text={text} label="What was measured on the trial" plan={plan} onText={setText} />
      <label class="row">
        <span>Measured within, degrees</span>
        <input
          type="number"
          min={0.05}
          max={5}
          step={0.05}
          value={errorDeg}
          onInput={(event) => setErrorDeg(Math.min(5, Math.max(0.05, event.currentTarget.valueAsNumber || 0.3)))}
        />
      </label>
      <div class="row">
        <button type="button" class="button-strong" disabled={text.trim() === ''} onClick={() => void ask()}>
          What does it tell?
        </button>
      </div>
      <div aria-live="polite" class="stack">
        {refusal !== null && <MeasuredWrong refusal={refusal} />}
        {told !== null &&
          correctionSentences(told.correction, lengthsFor(plan.notation), told.feedMmPerS).map((sentence) => (
            <p key={sentence} class="trial-told">
              {sentence}
            </p>
          ))}
      </div>
    </>
  );
}
