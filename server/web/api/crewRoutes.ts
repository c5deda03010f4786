/** What was learnt of the crew: seen, kept and forgotten at the console. */
import type { Router } from 'express';
import { crewName, parseKeepRequest } from '../../wire/kept/crew.ts';
import { answerFault, fault, faultLike } from '../fault.ts';
import type { WebPorts } from '../webPorts.ts';
import { address, requireRight } from './guards.ts';

export function crewRoutes(router: Router, { crew }: WebPorts): void {
  const mayKnow = requireRight((rights) => rights.crew);
  const noRun = (id: string) => fault('no-such-run', `there is no run ${JSON.stringify(id.slice(0, 64))}`);

  address(router, '/runs/:run/hand', {
    get: [
      mayKnow,
      (req, res) => {
        const id = String(req.params.run);
        const hand = crew.handOf(id);
        if (hand === undefined) return answerFault(res, noRun(id));
        res.json(hand);
      },
    ],
  });
  address(router, '/crew', {
    get: [mayKnow, (_req, res) => void res.json(crew.members())],
    post: [
      mayKnow,
      (req, res) => {
        const ask = parseKeepRequest(req.body);
        if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
        const kept = crew.keep(ask.value);
        if (kept === undefined) return answerFault(res, noRun(ask.value.run));
        if (!kept.ok) return answerFault(res, faultLike('nothing-kept', kept.error));
        res
          .status(201)
          .location(`/api/crew/${encodeURIComponent(kept.member.name)}`)
          .json(kept.member);
      },
    ],
  });
  address(router, '/crew/:name', {
    delete: [
      mayKnow,
      (req, res) => {
        const name = crewName(String(req.params.name));
        if (name !== undefined && crew.forget(name)) res.status(204).end();
        else answerFault(res, fault('no-such-hand', 'nothing is kept of anyone of this name'));
      },
    ],
  });
}
