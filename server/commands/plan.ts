import { planWithCures } from '../core/cures/tryCures.ts';
import { planAsText } from '../text/planText.ts';
import { readJob, wrong } from './readJob.ts';
import type { Terminal } from './terminal.ts';

/** `plan JOB [--json]` */
export async function plan(path: string, asJson: boolean, { out }: Terminal): Promise<void> {
  const { parsed } = await readJob(path);
  const made = planWithCures(parsed);
  if (!made.ok) throw wrong(made.problems);
  out.write(asJson ? `${JSON.stringify(made.value, null, 2)}\n` : planAsText(made.value));
}
