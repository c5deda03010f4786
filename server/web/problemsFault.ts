import type { Problem } from '../core/errors.ts';
import { problemsToWireError } from '../wire/problem/wireError.ts';
import { type Fault, faultLike } from './fault.ts';

/** What is wrong with a job or a request, as it is answered. */
export const problemsFault = (problems: readonly Problem[]): Fault => ({
  ...faultLike('cannot-plan', problemsToWireError(problems)),
  problems,
});
