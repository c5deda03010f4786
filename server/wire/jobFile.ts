/** The text of a job file, before its fields are looked at. */
import type { Place, Result } from '../core/errors.ts';
import { ok, refused } from '../core/errors.ts';
import { isObject } from './jobSection.ts';
import { quote, showName } from './showFound.ts';

export const JOB_LIMIT_CHARS = 1_000_000;

/** The JSON of a job file; what is no JSON is refused with the line where it breaks off. */
export function parseJobText(file: string, text: string): Result<unknown> {
  const name = showName(file);
  if (text.length > JOB_LIMIT_CHARS)
    return refused([
      {
        code: 'too-large',
        at: { file: name },
        found: `${text.length} characters`,
        wanted: `a job of at most ${JOB_LIMIT_CHARS} characters`,
      },
    ]);
  const json = text.replace(/^\uFEFF/, '');
  try {
    return ok(JSON.parse(json));
  } catch (error) {
    const found = findBreak(json, error instanceof Error ? error.message : '');
    const at: Place = found.line === undefined ? { file: name } : { file: name, line: found.line };
    return refused([
      {
        code: 'not-json',
        at,
        found: found.text,
        wanted: 'JSON: double quotation marks, no comments, no comma after the last field',
      },
    ]);
  }
}

/** The files that a job names; those are read and handed to `parseJob` with it. */
export function filesNamedBy(job: unknown): readonly string[] {
  const shape = ownField(job, 'shape');
  return [ownField(shape, 'pickup'), ownField(shape, 'pattern')].filter((name) => typeof name === 'string');
}

const ownField = (value: unknown, name: string): unknown =>
  isObject(value) && Object.hasOwn(value, name) ? value[name] : undefined;

// The engines say where the text breaks off only inside their message, and not all of them do.
function findBreak(json: string, message: string): { readonly text: string; readonly line?: number } {
  if (json.trim() === '') return { text: 'an empty file', line: 1 };
  const position = /position (\d+)/.exec(message)?.[1];
  const isEnd = /end of|unterminated/i.test(message);
  if (position === undefined && !isEnd) return { text: quote(json.trim(), 40) };
  const index = position === undefined ? json.length : Number(position);
  const line = json.slice(0, index).split('\n').length;
  const rest = json.slice(index).split('\n', 1)[0]?.trim() ?? '';
  return { text: rest === '' ? 'the end of a line or of the file' : quote(rest, 40), line };
}
