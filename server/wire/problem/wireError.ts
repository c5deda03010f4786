import type { Problem } from '../../core/errors.ts';
import { describePlace, describeProblem } from '../../core/errors.ts';

/** An error as every door of the server tells it. */
export interface WireError {
  /** Stable; what a program acts on. */
  readonly code: string;
  /** What is wrong, where, and what to do. */
  readonly message: string;
  readonly path?: string;
}

/** All that is wrong with a job as one error: its code and path are the first problem's, its message has a line for each. */
export function problemsToWireError(problems: readonly Problem[]): WireError {
  const first = problems[0];
  if (first === undefined) throw new Error('a refused job has at least one problem, found none');
  return {
    code: first.code,
    message: problems.map(describeProblem).join('\n'),
    path: first.at.field ?? describePlace(first.at),
  };
}
