/** What can be done with a piece that was sawn, and a trial on cheap stock. */
import type { RequestHandler, Router } from 'express';
import type { Result } from '../../core/errors.ts';
import type { BodyName, BodyOf } from '../../wire/request/bodies.ts';
import { answerFault, faultLike } from '../fault.ts';
import { problemsFault } from '../problemsFault.ts';
import type { WebPorts } from '../webPorts.ts';
import { address, requireRight } from './guards.ts';
import { bodyOf } from './longBodies.ts';

export function sawnRoutes(router: Router, ports: WebPorts): void {
  const { sawn } = ports;
  const mayPlan = requireRight(({ plan }) => plan);
  const post = (path: string, handle: RequestHandler): void => address(router, path, { post: [mayPlan, handle] });
  post(
    '/save',
    answered(ports, 'save', (ask) => sawn.save(ask)),
  );
  post(
    '/trial',
    answered(ports, 'trial', (ask) => sawn.trial(ask)),
  );
  post(
    '/trial/measured',
    answered(ports, 'measured', (ask) => sawn.correct(ask)),
  );
}

function answered<N extends BodyName, T>(
  ports: WebPorts,
  name: N,
  reckon: (ask: Extract<BodyOf<N>, { readonly ok: true }>['value']) => Promise<Result<T>>,
): RequestHandler {
  return async (req, res) => {
    const ask = await bodyOf(ports, name, req);
    if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
    const reckoned = await reckon(ask.value);
    if (!reckoned.ok) return answerFault(res, problemsFault(reckoned.problems));
    res.json(reckoned.value);
  };
}
