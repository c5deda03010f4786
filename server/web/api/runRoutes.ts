/** Runs: make, look at, command, read the record. */
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { Request, RequestHandler, Response, Router } from 'express';
import type { JournalLine } from '../../wire/kept/journalLine.ts';
import type { Answer, Command } from '../../wire/message/messages.ts';
import {
  parseAtBladeRequest,
  parseSoundRequest,
  parseSquareAnewRequest,
  parseSquareRequest,
} from '../../wire/request/requests.ts';
import type { Turns } from '../fairTurns.ts';
import { answerFault, type Fault, fault, faultLike } from '../fault.ts';
import { forbiddenFault } from '../forbiddenFault.ts';
import { problemsFault } from '../problemsFault.ts';
import type { MadeRun, RunPort, WebPorts } from '../webPorts.ts';
import { address, holderOf, requireRight, rightsOf } from './guards.ts';
import { inTurn } from './inTurn.ts';
import { bodyOf } from './longBodies.ts';

/** The handler with the run that the address names, or 404. */
export function withRun(
  ports: WebPorts,
  handle: (run: RunPort, req: Request, res: Response) => void | Promise<void>,
): RequestHandler {
  return (req, res) => {
    const id = String(req.params.run);
    const run = ports.run(id);
    if (run === undefined) return answerFault(res, noSuchRun(id));
    return handle(run, req, res);
  };
}

const noSuchRun = (id: string): Fault => fault('no-such-run', `there is no run ${JSON.stringify(id.slice(0, 64))}`);

export function runRoutes(router: Router, ports: WebPorts, turns: Turns): void {
  const command = commander(turns);
  const mayRead = requireRight(({ read }) => read);
  address(router, '/runs', {
    get: [mayRead, async (_req, res) => void res.json(await ports.runs())],
    post: [
      requireRight(({ plan }) => plan),
      async (req, res) => {
        const ask = await bodyOf(ports, 'run', req);
        if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
        const made = await ports.makeRun(ask.value);
        if (!made.ok) return answerFault(res, notMade(made));
        answerMade(made.run, res);
      },
    ],
  });

  const readings: Readonly<Record<string, (run: RunPort, req: Request, res: Response) => void | Promise<void>>> = {
    '': (run, _req, res) => void res.json(run.view()),
    '/plan': (run, _req, res) => void res.json(run.plan),
    '/clips': (run, _req, res) => void res.json(run.clips),
    '/debrief': async (run, _req, res) => void res.json(await run.debrief()),
  };
  for (const [path, handle] of Object.entries(readings))
    address(router, `/runs/:run${path}`, { get: [mayRead, withRun(ports, handle)] });

  address(router, '/runs/:run/journal', {
    get: [
      mayRead,
      (req, res) => {
        const id = String(req.params.run);
        const lines = ports.linesOf(id);
        return lines === undefined ? answerFault(res, noSuchRun(id)) : sendLines(lines, turns, res);
      },
    ],
  });
  address(router, '/runs/:run/at-blade', {
    post: [
      requireRight(({ commands }) => commands.includes('start')),
      withRun(ports, async (run, req, res) => {
        const ask = parseAtBladeRequest(req.body);
        if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
        answerCommand(run, await turns.take(run.run, () => run.placed(ask.value.mark)), res);
      }),
    ],
  });
  for (const each of ['start', 'resume'] as const)
    address(router, `/runs/:run/${each}`, {
      post: [
        withRun(ports, async (run, req, res) => {
          const ask = parseSoundRequest(req.body);
          if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
          await command(run, ask.value.withoutSound ? `${each}-without-sound` : each, res);
        }),
      ],
    });
  address(router, '/runs/:run/square', {
    post: [
      requireRight(({ commands }) => commands.includes('start')),
      withRun(ports, async (run, req, res) => {
        const ask = parseSquareRequest(req.body);
        if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
        answerCommand(run, await turns.take(run.run, () => run.squared(ask.value.shownDeg)), res);
      }),
    ],
  });
  address(router, '/runs/:run/square-anew', {
    post: [
      requireRight(({ plan }) => plan),
      withRun(ports, async (run, req, res) => {
        const ask = parseSquareAnewRequest(req.body);
        if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
        const made = await ports.makeAgain(run.run, ask.value.shownDeg, ask.value.despite);
        if (made === undefined) return answerFault(res, fault('no-such-run', `there is no run ${run.run}`));
        if (!made.ok) return answerFault(res, notMade(made));
        answerMade(made.run, res);
      }),
    ],
  });
  for (const each of ['stop-feed', 'finish'] as const)
    address(router, `/runs/:run/${each}`, { post: [withRun(ports, (run, _req, res) => command(run, each, res))] });
}

const notMade = (made: Extract<MadeRun, { readonly ok: false }>): Fault =>
  'forbidden' in made ? forbiddenFault(made.forbidden) : problemsFault(made.problems);

function answerMade({ run, plan }: RunPort, res: Response): void {
  res
    .status(201)
    .location(`/api/runs/${encodeURIComponent(run)}`)
    .json({ run, plan });
}

/** Gives a command, when it is the run's turn, and answers with the run as it then stands. */
const commander =
  (turns: Turns) =>
  async (run: RunPort, given: Command, res: Response): Promise<void> => {
    if (!rightsOf(res).commands.includes(given))
      return answerFault(res, fault('not-allowed', `a ${holderOf(res).role} key may not give the command ${given}`));
    answerCommand(run, await turns.take(run.run, () => run.command(given)), res);
  };

/** `seq` is the line that it was kept as; a stop that could not be kept says `"kept": false`. */
function answerCommand(run: RunPort, answer: Answer, res: Response): void {
  if (answer.ok) res.json({ ...run.view(), ...answer });
  else answerFault(res, faultLike('command-refused', answer.error));
}

async function sendLines(lines: Iterable<JournalLine>, turns: Turns, res: Response): Promise<void> {
  res.type('application/x-ndjson');
  try {
    await pipeline(Readable.from(inPieces(lines, turns), { objectMode: false }), res);
  } catch (error) {
    // The reader went away: nothing is owed any more.
    if ((error as NodeJS.ErrnoException).code !== 'ERR_STREAM_PREMATURE_CLOSE') throw error;
  }
}

async function* inPieces(lines: Iterable<JournalLine>, turns: Turns): AsyncGenerator<string> {
  for await (const some of inTurn(lines, turns)) yield some.map((line) => `${JSON.stringify(line)}\n`).join('');
}
