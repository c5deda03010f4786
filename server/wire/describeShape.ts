import type { z } from 'zod';
import type { WireError } from './wireError.ts';

/** The first thing that zod found wrong, as an error with the path of the field. */
export function describeShape(error: z.ZodError, value: unknown): WireError {
  const issue = error.issues[0];
  if (issue === undefined) return { code: 'bad-shape', message: 'not understood' };
  const path = issue.path.map(String).join('.');
  const found = JSON.stringify(
    issue.path.reduce<unknown>((at, key) => (at as Record<PropertyKey, unknown> | null)?.[key], value),
  );
  const shown = found === undefined ? 'nothing' : found.length > 60 ? `${found.slice(0, 57)}...` : found;
  const message = `${path === '' ? 'message' : path}: ${issue.message}, found ${shown}`;
  return path === '' ? { code: 'bad-shape', message } : { code: 'bad-shape', message, path };
}
