import type { z } from 'zod';
import { quote, showFound, showName } from './showFound.ts';
import type { WireError } from './wireError.ts';

/** The first thing that zod found wrong, as an error with the path of the field. Safe for any value, however deep. */
export function describeShape(error: z.ZodError, value: unknown): WireError {
  const issue = error.issues[0];
  if (issue === undefined) return { code: 'bad-shape', message: 'not understood' };
  if (issue.code === 'unrecognized_keys') return describeUnknown(issue);
  const path = joinPath(issue.path);
  const found = issue.path.reduce<unknown>((at, key) => (at as Record<PropertyKey, unknown> | null)?.[key], value);
  const message = `${path === '' ? 'message' : path}: ${describeWanted(issue)}, found ${showFound(found)}`;
  return path === '' ? { code: 'bad-shape', message } : { code: 'bad-shape', message, path };
}

function describeUnknown({ path, keys }: z.core.$ZodIssueUnrecognizedKeys): WireError {
  const key = keys[0] ?? '';
  const more = keys.length > 1 ? `, nor ${keys.length - 1} more that were sent` : '';
  return {
    code: 'bad-shape',
    message: `${joinPath(path) || 'message'}: there is no field ${quote(key)} here${more}`,
    path: joinPath([...path, key]),
  };
}

// zod does not say which values a discriminator may have.
const describeWanted = (issue: z.core.$ZodIssue): string =>
  issue.code === 'invalid_union' && 'options' in issue && Array.isArray(issue.options)
    ? `expected one of ${issue.options.map((option) => showFound(option)).join(', ')}`
    : issue.message;

const joinPath = (path: readonly PropertyKey[]): string => path.map((key) => showName(String(key))).join('.');
