/** `/feed`: frames in, one answer each, in the order in which they came. */
import type { RawData, WebSocket } from 'ws';
import { type FeedFrame, parseFeedFrame } from '../../wire/message/feedFrame.ts';
import type { Answer } from '../../wire/message/messages.ts';
import type { RunPort } from '../webPorts.ts';
import { letGo, limitIdle, TOO_MUCH } from './farewell.ts';
import { createSender } from './sender.ts';
import type { SocketParts } from './socketParts.ts';
import { TOO_MANY, TOO_MANY_FOR_THE_RUN } from './tooMany.ts';

/** A sender that does not read its answers may have this much waiting before it is let go. */
const UNREAD_LIMIT_BYTES = 1_000_000;

interface FeedAsk extends Pick<SocketParts, 'turns' | 'runTakes' | 'report'> {
  readonly run: RunPort;
  /** Names the connection for the run. */
  readonly source: string;
  readonly allowed: readonly FeedFrame['kind'][];
}

export function feedSocket(socket: WebSocket, { run, source, allowed, turns, runTakes, report }: FeedAsk): void {
  const sender = createSender(turns, socket);
  let answered: Promise<void> = Promise.resolve();

  const end = (code: number, why: string): void => letGo(socket, sender, code, why);

  const answer = (id: string | undefined, answer: Answer): void => {
    if (socket.readyState !== socket.OPEN) return;
    if (socket.bufferedAmount > UNREAD_LIMIT_BYTES) {
      end(1013, 'answers are not being read');
      return;
    }
    const { ok, ...rest } = answer;
    socket.send(JSON.stringify(id === undefined ? { ok, ...rest } : { ok, id, ...rest }));
  };

  const kept = async (reading: () => Promise<Answer>): Promise<Answer> => {
    try {
      return await reading();
    } catch (error) {
      report(error);
      return refusal('not-kept', 'the reading could not be kept: take it as not given');
    }
  };

  const take = (data: RawData, isBinary: boolean): { id: string | undefined; answer: Answer | Promise<Answer> } => {
    if (isBinary) return { id: undefined, answer: refusal('not-text', 'frames are text: one JSON object each') };
    const parsed = parseFeedFrame(data.toString());
    if (!parsed.ok) return { id: parsed.id, answer: { ok: false, error: parsed.error } };
    const { frame } = parsed;
    if (!allowed.includes(frame.kind))
      return { id: frame.id, answer: refusal('not-allowed', `this key may not send ${frame.kind} readings`) };
    if (!runTakes(run.run, source)) return { id: frame.id, answer: TOO_MANY_FOR_THE_RUN };
    return { id: frame.id, answer: kept(() => run.reading(source, frame)) };
  };

  /** The reading is on its way already; only its answer waits for those before it. */
  const say = (id: string | undefined, told: Answer | Promise<Answer>): void => {
    answered = answered.then(async () => answer(id, await told));
  };

  socket.on('message', (data, isBinary) => {
    // What still comes in after the socket is being closed is nobody's reading any more.
    if (socket.readyState !== socket.OPEN) return;
    const verdict = sender.arrived(data.toString().length);
    if (verdict === 'close') return end(1008, TOO_MUCH);
    sender.do(run.run, () => {
      // Answered at its turn too: answers come in the order of the frames.
      const taken = verdict === 'refuse' ? { id: undefined, answer: TOO_MANY } : take(data, isBinary);
      say(taken.id, taken.answer);
    });
  });
  limitIdle(socket, turns, 'ping');
  // Behind all that it sent before.
  socket.on('close', () => sender.do(run.run, () => run.sourceClosed(source)));
}

const refusal = (code: string, message: string): Answer => ({ ok: false, error: { code, message } });
