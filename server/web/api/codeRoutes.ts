/** The printed codes of a run's marks: for plain hand scanners Code 128, or QR. */
import { toSVG } from 'bwip-js/node';
import type { Router } from 'express';
import { markCodeText } from '../../wire/message/markCode.ts';
import { answerFault, fault } from '../fault.ts';
import type { WebPorts } from '../webPorts.ts';
import { address, requireRight } from './guards.ts';
import { withRun } from './runRoutes.ts';

export function codeRoutes(router: Router, ports: WebPorts): void {
  const mayRead = requireRight(({ read }) => read);
  address(router, '/runs/:run/codes', {
    get: [
      mayRead,
      withRun(ports, (run, _req, res) => {
        res.json(
          run.plan.marks.map(({ mark }) => ({
            mark,
            text: markCodeText(run.plan, mark),
            url: `/api/runs/${encodeURIComponent(run.run)}/codes/${mark}.svg`,
          })),
        );
      }),
    ],
  });
  address(router, '/runs/:run/codes/:file', {
    get: [
      mayRead,
      withRun(ports, (run, req, res) => {
        const digits = /^([1-9]\d{0,3})\.svg$/.exec(String(req.params.file))?.[1];
        const mark = run.plan.marks.find((each) => String(each.mark) === digits)?.mark;
        if (mark === undefined)
          return answerFault(
            res,
            fault('no-such-mark', `marks go from 1 to ${run.plan.marks.length}: ask for MARK.svg`),
          );
        const as = req.query.as ?? 'bars';
        if (as !== 'bars' && as !== 'qr')
          return answerFault(res, fault('bad-request', 'codes come as bars or as qr: ?as=bars or ?as=qr'));
        const text = markCodeText(run.plan, mark);
        res.type('image/svg+xml').send(as === 'qr' ? qrCode(text) : barCode(text));
      }),
    ],
  });
}

/** Code 128 with its quiet zones, 12 mm high; the text stands on the sheet beside it. */
const barCode = (text: string): string =>
  toSVG({ bcid: 'code128', text, height: 12, paddingleft: 10, paddingright: 10, backgroundcolor: 'FFFFFF' });

/** QR with its quiet zone of four modules, a module being two of the encoder's units. */
export const qrCode = (text: string): string => toSVG({ bcid: 'qrcode', text, padding: 8, backgroundcolor: 'FFFFFF' });
