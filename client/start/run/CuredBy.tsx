import type { JobSent } from '../../kit/link/api.ts';
import { Note } from '../../kit/parts/Note.tsx';

interface Cured {
  /** What it was planned anew with, in words. */
  readonly by: string;
  /** The job as it was before. */
  readonly from: JobSent;
}

/** The plan is not of the job as it was given: how it was changed, the changed job to keep, and the way back. */
export function CuredBy(props: {
  readonly cured: Cured;
  readonly job: JobSent;
  readonly onUndo: (cured: Cured) => void;
}) {
  const { cured, job } = props;
  const saved = `data:application/json,${encodeURIComponent(`${JSON.stringify(job.job, null, 2)}\n`)}`;
  return (
    <Note kind="plain" word="Planned anew">
      {cured.by} Your job file is as it was.
      <div class="row">
        <a class="button" href={saved} download="job.json">
          Save the changed job
        </a>
        <button type="button" onClick={() => props.onUndo(cured)}>
          Back to the job as it was
        </button>
      </div>
    </Note>
  );
}
