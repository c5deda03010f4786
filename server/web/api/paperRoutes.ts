/** Papers, of a job that is planned for them and of a run, as PDF files. */
import type { Response, Router } from 'express';
import type { JournalLine } from '../../wire/kept/journalLine.ts';
import {
  isPaperName,
  isSheetSize,
  isWorthPaper,
  PAPERS,
  type PaperName,
  type PaperTask,
  paperAsked,
  SHEET_SIZES,
  type SheetSize,
} from '../../wire/request/papers.ts';
import type { Turns } from '../fairTurns.ts';
import { answerFault, fault, faultLike } from '../fault.ts';
import { problemsFault } from '../problemsFault.ts';
import type { RunPort, WebPorts } from '../webPorts.ts';
import { address, requireRight } from './guards.ts';
import { inTurn } from './inTurn.ts';
import { bodyOf } from './longBodies.ts';
import { withRun } from './runRoutes.ts';

export function paperRoutes(router: Router, ports: WebPorts, turns: Turns): void {
  address(router, '/paper/:paper', {
    post: [
      requireRight(({ plan }) => plan),
      async (req, res) => {
        const paper = String(req.params.paper);
        if (!isPaperName(paper)) return answerFault(res, noSuchPaper(PAPERS));
        const ask = await bodyOf(ports, 'paper', req);
        if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
        const asked = paperAsked(paper, ask.value.paper);
        if ('wanted' in asked) return answerFault(res, wrongSize(asked));
        const planned = await ports.plan(ask.value);
        if (!planned.ok) return answerFault(res, problemsFault(planned.problems));
        sendPdf(res, paper, await ports.print({ ...asked, plan: planned.plan }));
      },
    ],
  });
  address(router, '/runs/:run/paper/:file', {
    get: [
      requireRight(({ read }) => read),
      withRun(ports, async (run, req, res) => {
        const [, name = ''] = /^([a-z-]+)\.pdf$/.exec(String(req.params.file)) ?? [];
        const { paper: size = 'a4' } = req.query;
        if (name === 'record') {
          if (typeof size !== 'string' || !isSheetSize(size))
            return answerFault(res, wrongSize({ found: 'another', wanted: `one of ${SHEET_SIZES.join(', ')}` }));
          return sendPdf(res, `record-${run.run}`, await ports.print(await recordOf(run, size, turns)));
        }
        if (!isPaperName(name)) return answerFault(res, noSuchPaper([...PAPERS, 'record']));
        const asked = paperAsked(name, String(size));
        if ('wanted' in asked) return answerFault(res, wrongSize(asked));
        sendPdf(res, name, await ports.print({ ...asked, plan: run.plan }));
      }),
    ],
  });
}

async function recordOf(run: RunPort, size: SheetSize, turns: Turns): Promise<PaperTask> {
  const lines: JournalLine[] = [];
  for await (const some of inTurn(run.lines(), turns)) lines.push(...some.filter(isWorthPaper));
  return { paper: 'record', size, plan: run.plan, record: { view: run.view(), debrief: await run.debrief(), lines } };
}

function sendPdf(res: Response, name: PaperName | `record-${string}`, bytes: Uint8Array): void {
  res.setHeader('Content-Disposition', `inline; filename="${name}.pdf"`);
  res.type('application/pdf').send(Buffer.from(bytes));
}

const noSuchPaper = (names: readonly string[]) =>
  fault('no-such-paper', `there is no such paper: ask for one of ${names.join(', ')}`);

const wrongSize = ({ found, wanted }: { readonly found: string; readonly wanted: string }) =>
  faultLike('bad-request', { code: 'bad-shape', path: 'paper', message: `paper: expected ${wanted}, found ${found}` });
