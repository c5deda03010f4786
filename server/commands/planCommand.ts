import { planWithCures } from '../core/cures/tryCures.ts';
import { planAsText } from '../text/planText.ts';
import { readJob, wrong } from './door/readJob.ts';
import type { Terminal } from './door/terminal.ts';

/** `plan JOB [--json]` */
export async function plan(path: string, asJson: boolean, { out }: Terminal): Promise<void> {
  const { parsed } = await readJob(path);
  const made = planWithCures(parsed);
  if (!made.ok) throw wrong(made.problems);
  out.write(asJson ? `${JSON.stringify(made.value, null, 2)}\n` : planAsText(made.value));
}
