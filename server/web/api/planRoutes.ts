/** Planning, and the jobs that the start page offers. */
import type { Router } from 'express';
import { answerFault, fault, faultLike } from '../fault.ts';
import { problemsFault } from '../problemsFault.ts';
import type { WebPorts } from '../webPorts.ts';
import { address, requireRight } from './guards.ts';
import { bodyOf } from './longBodies.ts';

export function planRoutes(router: Router, ports: WebPorts): void {
  const mayPlan = requireRight(({ plan }) => plan);
  address(router, '/plan', {
    post: [
      mayPlan,
      async (req, res) => {
        const ask = await bodyOf(ports, 'plan', req);
        if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
        const planned = await ports.planText(ask.value);
        if (!planned.ok) return answerFault(res, problemsFault(planned.problems));
        res.type('json').send(planned.text);
      },
    ],
  });
  address(router, '/jobs', { get: [mayPlan, (_req, res) => void res.json(ports.jobs())] });
  address(router, '/jobs/:name', {
    get: [
      mayPlan,
      (req, res) => {
        const job = ports.job(String(req.params.name));
        if (job === undefined) return answerFault(res, fault('no-such-job', 'there is no job of this name'));
        res.json(job);
      },
    ],
  });
}
