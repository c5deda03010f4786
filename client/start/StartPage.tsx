import { useEffect, useRef, useState } from 'preact/hooks';
import type { Cure } from '../../server/core/plan/cure.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { Routine } from '../../server/core/routine/routine.ts';
import { mergePatch } from '../../server/wire/job/mergePatch.ts';
import { api, type JobSent, type Refusal } from '../kit/link/api.ts';
import { Head } from '../kit/parts/Head.tsx';
import { Note } from '../kit/parts/Note.tsx';
import { type DroppedFile, gatherJob, tablesIn } from './gatherJob.ts';
import { JobBench } from './JobBench.tsx';
import { Problems } from './Problems.tsx';
import { PaperSheet } from './plan/PaperSheet.tsx';
import { PlanView } from './plan/PlanView.tsx';
import { SavePiece } from './plan/SavePiece.tsx';
import { SawSheet, type TrialOnBench } from './plan/SawSheet.tsx';
import { RunsList } from './RunsList.tsx';
import { CuredBy } from './run/CuredBy.tsx';
import { StartRun } from './run/StartRun.tsx';
import { TiltHand } from './run/TiltHand.tsx';

interface Planned {
  readonly name: string;
  readonly job: JobSent;
  readonly plan: Plan;
  /** Where the job is a trial that was made here. */
  readonly trial: TrialOnBench | null;
  /** What it was planned anew with, and the job as it was before. */
  readonly cured?: { readonly by: string; readonly from: JobSent };
  /** The routine that a cure asks for. */
  readonly wanted?: Routine;
}

/** What could not be planned; what was there before stays. */
interface Refused {
  readonly name: string;
  readonly refusal: Refusal;
}

/** Where the trial and its table stand, once they are drawn. */
const toSawSheet = (): void => {
  requestAnimationFrame(() => document.getElementById('saw-truth')?.scrollIntoView());
};

export function StartPage() {
  const [offered, setOffered] = useState<readonly { readonly name: string; readonly title: string }[]>([]);
  const [planned, setPlanned] = useState<Planned | null>(null);
  const [refused, setRefused] = useState<Refused | null>(null);
  const [tables, setTables] = useState<Readonly<Record<string, string>>>({});
  /** The job of the last drop, even if it could not be planned: the table that it lacks may be dropped next. */
  const [bench, setBench] = useState<JobSent | null>(null);
  const [planning, setPlanning] = useState<string | null>(null);
  /** What was asked for last is what is shown, whichever answer comes last. */
  const asks = useRef(0);

  useEffect(() => {
    void api.jobs().then((asked) => {
      if (!asked.ok) return setRefused({ name: 'The offered jobs', refusal: asked });
      setOffered(asked.value);
      const first = asked.value[0];
      if (first !== undefined && asks.current === 0) void openOffered(first.name, first.title);
    });
  }, []);

  async function openOffered(name: string, title: string): Promise<void> {
    const ask = ++asks.current;
    const asked = await api.job(name);
    if (ask !== asks.current) return;
    if (asked.ok) await planJob(title, asked.value);
    else setRefused({ name: title, refusal: asked });
  }

  async function planJob(
    name: string,
    job: JobSent,
    trial: TrialOnBench | null = null,
    cured?: Planned['cured'],
  ): Promise<void> {
    const ask = ++asks.current;
    setPlanning(name);
    setBench(job);
    const asked = await api.plan(job);
    if (ask !== asks.current) return;
    setPlanning(null);
    if (!asked.ok) return setRefused({ name, refusal: asked });
    setRefused(null);
    setPlanned({ name, job, plan: asked.value, trial, ...(cured === undefined ? {} : { cured }) });
  }

  /** A cure of the plan that is shown: the job changed, or another routine for the run. */
  function takeCure(shown: Planned, cure: Cure): void {
    const { name, job, trial, cured } = shown;
    if (cure.kind === 'routine') {
      setPlanned({ ...shown, wanted: cure.routine });
      requestAnimationFrame(() => document.getElementById('start-run')?.scrollIntoView());
      return;
    }
    const by = [...(cured === undefined ? [] : [cured.by]), cure.text].join(' ');
    const changed = { ...job, job: mergePatch(job.job, cure.change) };
    void planJob(name, changed, trial, { by, from: cured?.from ?? job });
  }

  async function openTrial(trial: TrialOnBench): Promise<void> {
    const { job, files } = trial.made;
    await planJob(`Trial of ${trial.of.name}`, { job, files }, trial);
    toSawSheet();
  }

  async function takeDrop(files: readonly DroppedFile[]): Promise<void> {
    const gathered = gatherJob(files, { job: bench, tables });
    setTables({ ...tables, ...tablesIn(files) });
    if (gathered.ok) return planJob(gathered.from, gathered.job);
    setRefused({
      name: files.map((file) => file.name).join(', '),
      refusal: { ok: false, status: 0, error: { code: 'not-a-job', message: gathered.message }, problems: [] },
    });
  }

  return (
    <>
      <Head>
        <a href="#runs">Earlier runs</a>
        <a href="/join">Join with another device</a>
      </Head>
      <main class="start">
        <JobBench
          offered={offered}
          opened={planned?.name ?? null}
          planning={planning}
          onOffered={(name, title) => void openOffered(name, title)}
          onDrop={(files) => void takeDrop(files)}
        />
        {refused !== null && (
          <Problems
            name={refused.name}
            refusal={refused.refusal}
            kept={planned?.plan.title ?? null}
            onDismiss={() => setRefused(null)}
          />
        )}
        {planned === null ? (
          refused === null && <Note kind="plain">Choose a job, or drop in your own. Its plan is drawn here.</Note>
        ) : (
          <>
            {planned.cured !== undefined && (
              <CuredBy
                cured={planned.cured}
                job={planned.job}
                onUndo={({ from }) => void planJob(planned.name, from, planned.trial)}
              />
            )}
            <PlanView
              plan={planned.plan}
              job={planned.job}
              onConfirm={(job) => void planJob(planned.name, job, planned.trial)}
              isPlanning={planning !== null}
              onCure={(cure) => takeCure(planned, cure)}
            />
            <PaperSheet job={planned.job} />
            <SawSheet
              key={planned.name}
              plan={planned.plan}
              job={planned.job}
              name={planned.name}
              trial={planned.trial}
              onTrial={(trial) => void openTrial(trial)}
              onBack={({ of }) => void planJob(of.name, of.job).then(() => toSawSheet())}
            />
            <TiltHand job={planned.job} onChoose={(job) => planJob(planned.name, job, planned.trial)} />
            <StartRun key={planned} plan={planned.plan} job={planned.job} wanted={planned.wanted ?? null} />
            {planned.trial === null && <SavePiece key={planned.name} plan={planned.plan} job={planned.job} />}
          </>
        )}
        <RunsList />
      </main>
    </>
  );
}
