import type { ErrorRequestHandler } from 'express';
import { answerFault, type Fault, fault } from './fault.ts';
import { storageFault } from './storageFault.ts';

/** The last handler: what express and its body parser found wrong, and what the disk refused, is a 4xx in our words; all else is ours, and told to nobody. */
export function handleFailure(report: (error: unknown) => void): ErrorRequestHandler {
  return (error: unknown, _req, res, next) => {
    if (res.headersSent) return next(error);
    const known = knownFault(error);
    if (known !== null) return answerFault(res, known);
    report(error);
    const onDisk = storageFault(error);
    if (onDisk !== null) return answerFault(res, onDisk);
    res.status(500).json({
      error: { code: 'failed', message: 'the server could not do this; what went wrong is in its own output' },
    });
  };
}

function knownFault(error: unknown): Fault | null {
  const { type, status, limit } = error as { type?: unknown; status?: unknown; limit?: unknown };
  if (type === 'entity.too.large') return fault('too-large', `a request has at most ${Number(limit)} bytes`);
  if (type === 'encoding.unsupported') return fault('json-only', 'send JSON in UTF-8, not packed');
  if (typeof status === 'number' && status >= 400 && status < 500)
    return status === 404
      ? fault('no-such-address', 'there is nothing at this address')
      : fault('bad-request', 'the request cannot be understood');
  return null;
}
