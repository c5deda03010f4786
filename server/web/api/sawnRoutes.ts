/** What can be done with a piece that was sawn, and a trial on cheap stock. */
import type { RequestHandler, Router } from 'express';
import type { Result } from '../../core/errors.ts';
import type { ParsedRequest } from '../../wire/requests.ts';
import { parseMeasuredRequest, parseSaveRequest, parseTrialRequest } from '../../wire/sawnRequests.ts';
import { answerFault, faultLike } from '../fault.ts';
import type { WebPorts } from '../ports.ts';
import { problemsFault } from '../problemsFault.ts';
import { address, requireRight } from './guards.ts';

export function sawnRoutes(router: Router, { sawn }: WebPorts): void {
  const mayPlan = requireRight(({ plan }) => plan);
  const post = (path: string, handle: RequestHandler): void => address(router, path, { post: [mayPlan, handle] });
  post(
    '/save',
    answered(parseSaveRequest, (ask) => sawn.save(ask)),
  );
  post(
    '/trial',
    answered(parseTrialRequest, (ask) => sawn.trial(ask)),
  );
  post(
    '/trial/measured',
    answered(parseMeasuredRequest, (ask) => sawn.correct(ask)),
  );
}

function answered<Ask, T>(
  parse: (body: unknown) => ParsedRequest<Ask>,
  reckon: (ask: Ask) => Promise<Result<T>>,
): RequestHandler {
  return async (req, res) => {
    const ask = parse(req.body);
    if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
    const reckoned = await reckon(ask.value);
    if (!reckoned.ok) return answerFault(res, problemsFault(reckoned.problems));
    res.json(reckoned.value);
  };
}
