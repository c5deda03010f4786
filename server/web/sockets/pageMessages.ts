/** What pages send, checked as it comes in: the types of `PageToServer` promise nothing about a page that is not ours. */
import { z } from 'zod';
import { LONGEST_DELAY_MS } from '../../core/hearing/earLimits.ts';
import { describeShape } from '../../wire/problem/describeShape.ts';
import { asOneLine, isOneLine, WITHOUT_HIDDEN } from '../../wire/problem/hidden.ts';
import type { WireError } from '../../wire/problem/wireError.ts';

const role = z.enum(['sawyer', 'wheel']);
const shortText = z.string().min(1).max(64);
const name = z.string().refine((text) => text === '' || isOneLine(text, 64), {
  message: `expected one line of at most 64 characters, ${WITHOUT_HIDDEN}`,
});

export const joinAsk = z.strictObject({ run: shortText, role });
export const command = z.enum([
  'start',
  'start-without-sound',
  'stop-feed',
  'resume',
  'resume-without-sound',
  'finish',
]);
export const listener = z.strictObject({
  id: shortText,
  label: name,
  role,
  hearing: z.enum(['loading', 'silent', 'confirmed', 'suspended']),
  delayMs: z.number().min(0).max(LONGEST_DELAY_MS).exactOptional(),
  isWithoutBevels: z.boolean().exactOptional(),
});
export const unplayed = z.strictObject({ id: shortText, reason: z.string().max(200).transform(asOneLine) });

export type Checked<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: WireError };

export function check<T>(shape: z.ZodType<T>, value: unknown): Checked<T> {
  const parsed = shape.safeParse(value);
  return parsed.success ? { ok: true, value: parsed.data } : { ok: false, error: describeShape(parsed.error, value) };
}
