/** The text of a job file, before its fields are looked at. */
import type { Result } from '../../core/errors.ts';
import { ok, refused } from '../../core/errors.ts';
import { isOneLine } from '../problem/hidden.ts';
import { quote, showName } from '../problem/showFound.ts';
import { isObject } from './jobSection.ts';

const JOB_LIMIT_CHARS = 1_000_000;

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
  } catch {
    const index = breakIndex(json);
    const rest = json.slice(index).split('\n', 1)[0]?.trim() ?? '';
    return refused([
      {
        code: 'not-json',
        at: { file: name, line: json.slice(0, index).split('\n').length },
        found: json.trim() === '' ? 'an empty file' : rest === '' ? 'the end of the file' : quote(rest, 40),
        wanted: 'JSON: double quotation marks, no comments, no comma after the last field',
      },
    ]);
  }
}

export const FILE_NAME_CHARS = 255;

/** The files that a job names; those are read and handed to `parseJob` with it. What cannot be a file's name is left out. */
export function filesNamedBy(job: unknown): readonly string[] {
  const shape = ownField(job, 'shape');
  return [ownField(shape, 'pickup'), ownField(shape, 'pattern'), ownField(shape, 'offsets')]
    .filter((name) => typeof name === 'string')
    .map((name) => name.trim())
    .filter((name) => isOneLine(name, FILE_NAME_CHARS));
}

const ownField = (value: unknown, name: string): unknown =>
  isObject(value) && Object.hasOwn(value, name) ? value[name] : undefined;

/**
 * Where a text stops being JSON. Not every engine says it, but each tells a text that ends too early from one that is wrong:
 * so the shortest beginning that is wrong is looked for, by halving.
 */
function breakIndex(json: string): number {
  if (isUnfinished(json)) return json.length;
  let [unfinished, wrong] = [0, json.length];
  while (wrong - unfinished > 1) {
    const middle = Math.floor((unfinished + wrong) / 2);
    if (isUnfinished(json.slice(0, middle))) unfinished = middle;
    else wrong = middle;
  }
  return wrong - 1;
}

function isUnfinished(json: string): boolean {
  try {
    JSON.parse(json);
    return true;
  } catch (error) {
    const message = error instanceof Error ? error.message : '';
    const position = /position (\d+)/.exec(message)?.[1];
    return /end of|EOF|unterminated/i.test(message) || (position !== undefined && Number(position) >= json.length);
  }
}
