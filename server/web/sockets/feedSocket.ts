/** `/feed`: frames in, one answer each, in the order in which they came. */
import type { RawData, WebSocket } from 'ws';
import { type FeedFrame, parseFeedFrame } from '../../wire/feedFrame.ts';
import type { Answer } from '../../wire/messages.ts';
import type { RunPort } from '../ports.ts';
import { createFrameRate, FRAMES_A_SECOND, HOT_SECONDS } from './frameRate.ts';

/** A sender that does not read its answers may have this much waiting before it is let go. */
const UNREAD_LIMIT_BYTES = 1_000_000;

export interface FeedAsk {
  readonly run: RunPort;
  /** Names the connection for the run. */
  readonly source: string;
  readonly allowed: readonly FeedFrame['kind'][];
  /** Told of what should never happen. */
  readonly report: (error: unknown) => void;
}

export function feedSocket(socket: WebSocket, { run, source, allowed, report }: FeedAsk): void {
  const verdictAt = createFrameRate();
  let answered: Promise<void> = Promise.resolve();

  const answer = (id: string | undefined, answer: Answer): void => {
    if (socket.readyState !== socket.OPEN) return;
    if (socket.bufferedAmount > UNREAD_LIMIT_BYTES) {
      socket.close(1013, 'answers are not being read');
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
    return { id: frame.id, answer: kept(() => run.reading(source, frame)) };
  };

  socket.on('message', (data, isBinary) => {
    // What still comes in after the socket is being closed is nobody's reading any more.
    if (socket.readyState !== socket.OPEN) return;
    const verdict = verdictAt(performance.now());
    if (verdict === 'close')
      return socket.close(1008, `more than ${FRAMES_A_SECOND} frames a second for ${HOT_SECONDS} seconds`);
    const taken =
      verdict === 'take'
        ? take(data, isBinary)
        : { id: undefined, answer: refusal('too-many', `at most ${FRAMES_A_SECOND} frames a second`) };
    // The reading is on its way already; only its answer waits for those before it.
    answered = answered.then(async () => answer(taken.id, await taken.answer));
  });
  socket.on('close', () => run.sourceClosed(source));
}

const refusal = (code: string, message: string): Answer => ({ ok: false, error: { code, message } });
