/** What is wrong with something the user gave, said so that it can be found and mended. */

/** Where in the input the problem lies. `row` counts data rows from 1 (comments and the heading left out). */
export interface ProblemPlace {
  readonly file?: string;
  readonly row?: number;
  /** Line of the file counted from 1, where an editor shows it. */
  readonly line?: number;
  readonly column?: string;
  /** Dotted path in the job file, for instance `saw.kerf` or `marks.at[3]`. */
  readonly field?: string;
}

export type ProblemCode =
  | 'not-json'
  | 'not-csv'
  | 'missing'
  | 'wrong-type'
  | 'unknown-field'
  | 'unknown-name'
  | 'out-of-range'
  | 'out-of-order'
  | 'not-a-length'
  | 'ambiguous-length'
  | 'missing-file'
  | 'too-large'
  | 'too-few'
  | 'too-many'
  | 'not-supported'
  | 'mixed-units'
  /** A point of the offsets that a slip of the pen has put off the fair line. */
  | 'off-the-fair-line'
  /** Words that would be taken for others. */
  | 'mistakable'
  | 'cannot-be-sawn'
  | 'cannot-be-met';

export interface Problem {
  readonly code: ProblemCode;
  readonly at: ProblemPlace;
  /** What stands there, as text, shortened where it is long. */
  readonly found: string;
  /** What should stand there instead, in words that tell the user what to do. */
  readonly wanted: string;
}

export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const ok = <T>(value: T): Result<T> => ({ ok: true, value });
export const refused = <T>(problems: readonly Problem[]): Result<T> => ({ ok: false, problems });

/** The place in words: file, row or line, column, field. */
export function describePlace(at: ProblemPlace): string {
  const line = at.line === undefined ? undefined : `line ${at.line}`;
  const parts = [
    at.file,
    at.row === undefined ? line : `row ${at.row}${line === undefined ? '' : ` (${line})`}`,
    at.column === undefined ? undefined : `column ${at.column}`,
    at.field,
  ].filter((part) => part !== undefined);
  return parts.length === 0 ? 'job' : parts.join(', ');
}

/** One line for one problem: place, what was found, what is wanted. */
export const describeProblem = ({ at, found, wanted }: Problem): string =>
  `${describePlace(at)}: found ${found}; wanted ${wanted}`;
