/** Everything that the web room answers with a 4xx: one stable code, one status. */
import type { Response } from 'express';
import type { Problem } from '../core/errors.ts';
import type { Warning } from '../core/warning.ts';
import type { WireError } from '../wire/problem/wireError.ts';

const STATUS = {
  'not-json': 400,
  'bad-request': 400,
  'cannot-plan': 400,
  'key-needed': 401,
  'key-wrong': 401,
  'wrong-host': 403,
  'wrong-origin': 403,
  'not-allowed': 403,
  'no-such-address': 404,
  'no-such-run': 404,
  'no-such-mark': 404,
  'no-such-job': 404,
  'no-such-clip': 404,
  'no-such-paper': 404,
  'no-such-device': 404,
  'no-such-hand': 404,
  'no-such-voice': 404,
  'wrong-method': 405,
  'not-over-the-network': 409,
  'command-refused': 409,
  'forbidden-cut': 409,
  'nothing-kept': 409,
  'disk-full': 409,
  'disk-read-only': 409,
  'disk-failed': 409,
  damaged: 409,
  'too-large': 413,
  'json-only': 415,
  'not-usable': 422,
  'too-many': 429,
  'too-many-tries': 429,
} as const;
export type FaultCode = keyof typeof STATUS;

export interface Fault {
  readonly status: number;
  readonly error: WireError;
  /** Everything that is wrong with a job, one by one, for a page that shows each at its place. */
  readonly problems?: readonly Problem[];
  /** What forbids the cut of a run that is not made for it. */
  readonly warnings?: readonly Warning[];
}

export const fault = (code: FaultCode, message: string): Fault => ({ status: STATUS[code], error: { code, message } });

/** The status of `like`, with an error that another room has worded. */
export const faultLike = (like: FaultCode, error: WireError): Fault => ({ status: STATUS[like], error });

export function answerFault(res: Response, { status, ...told }: Fault): void {
  if (status === 429) res.setHeader('Retry-After', '60');
  res.status(status).json(told);
}
