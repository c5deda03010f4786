/** The server's own loudspeaker: looked at, tried, and confirmed by whoever stands before it. */
import type { RequestHandler, Router } from 'express';
import { answerFault, fault, faultLike } from '../fault.ts';
import type { LoudspeakerPort, WebPorts } from '../webPorts.ts';
import { address, requireRight } from './guards.ts';

export function loudspeakerRoutes(router: Router, { loudspeaker }: WebPorts): void {
  // Whoever may start a run may say that its calls are heard.
  const mayConfirm = requireRight(({ commands }) => commands.includes('start'));
  const none: RequestHandler = (_req, res) =>
    answerFault(
      res,
      fault('no-such-address', 'this server has no loudspeaker of its own: start it with --loudspeaker'),
    );
  const withIt = (handle: (loudspeaker: LoudspeakerPort) => RequestHandler): RequestHandler[] => [
    mayConfirm,
    loudspeaker === null ? none : handle(loudspeaker),
  ];
  address(router, '/loudspeaker', { get: withIt((it) => (_req, res) => void res.json(it.state())) });
  address(router, '/loudspeaker/test', {
    post: withIt((it) => async (_req, res) => void res.json(await it.test())),
  });
  address(router, '/loudspeaker/confirm', {
    post: withIt((it) => (_req, res) => {
      const confirmed = it.confirm();
      if (confirmed.ok) res.json(confirmed.state);
      else answerFault(res, faultLike('command-refused', confirmed.error));
    }),
  });
}
