/** The pages' sockets: socket.io, typed both ways. A page joins one run in one role at a time. */
import type { Server as HttpServer, IncomingMessage } from 'node:http';
import type { Server as HttpsServer } from 'node:https';
import type { Duplex } from 'node:stream';
import { Server, type Socket } from 'socket.io';
import { WebSocketServer } from 'ws';
import { checkFeedFrame } from '../../wire/message/feedFrame.ts';
import type { Answer, Joined, PageToServer, Role, ServerToPage } from '../../wire/message/messages.ts';
import type { WireError } from '../../wire/problem/wireError.ts';
import type { Holder } from '../access/access.ts';
import { RIGHTS } from '../access/rights.ts';
import { atFixedIntervals } from '../fixedInterval.ts';
import { storageFault } from '../storageFault.ts';
import type { RunPort } from '../webPorts.ts';
import type { FrameVerdict } from './frameRate.ts';
import * as messages from './pageMessages.ts';
import { createPerSecond } from './perSecond.ts';
import { refuseUpgrade } from './refuseUpgrade.ts';
import { createSender, type Tap } from './sender.ts';
import type { SocketParts } from './socketParts.ts';
import { TOO_MANY, TOO_MANY_FOR_THE_RUN } from './tooMany.ts';

const BEAT_MS = 200;
/** A whole plan goes out at each; a page joins once, and again when it comes back. */
const JOINS_A_SECOND = 5;
export const PAGE_SOCKETS_PATH = '/socket.io/';

interface PageSockets {
  upgrade(req: IncomingMessage, socket: Duplex, head: Buffer): void;
  close(): Promise<void>;
}
type Page = Socket<PageToServer, ServerToPage>;

/** The place that a page has taken in a run. */
interface Seat {
  readonly run: RunPort;
  readonly role: Role;
  /** Ends what the page is told. */
  readonly leave: () => void;
}

export function createPageSockets(server: HttpServer | HttpsServer, parts: SocketParts): PageSockets {
  const { access, door, clock } = parts;
  const io = new Server<PageToServer, ServerToPage>({
    path: PAGE_SOCKETS_PATH,
    transports: ['websocket'],
    serveClient: false,
    perMessageDeflate: false,
    maxHttpBufferSize: 16_384,
    wsEngine: OneFrameATurn,
    // An ear that gives no sign of life is missed within a second and a half (live/ears/ears.ts): the younger its last sign, the
    // longer it may be held up without being lost.
    pingInterval: 100,
    pingTimeout: 2500,
    connectTimeout: 5000,
  });
  io.attach(server);
  // All upgrades come in by one door, which hands on those meant for here.
  server.removeAllListeners('upgrade');

  const holders = new WeakMap<IncomingMessage, Holder>();
  io.on('connection', (page) => {
    const holder = holders.get(page.request);
    if (holder === undefined) page.disconnect(true);
    else seatPage(page, holder, parts);
  });
  access.onRevoked((device) => {
    for (const page of io.sockets.sockets.values())
      if (holders.get(page.request)?.device === device) page.disconnect(true);
  });
  const endBeats = atFixedIntervals(BEAT_MS, () => io.volatile.emit('beat', clock()));

  return {
    upgrade(req, socket, head) {
      const screened = door.screen(req);
      if (screened !== null) return refuseUpgrade(socket, screened);
      const admission = door.admit(req);
      if (!admission.ok) return refuseUpgrade(socket, admission.fault);
      holders.set(req, admission.holder);
      // engine.io types the request by a class of its own that only adds to Node's.
      io.engine.handleUpgrade(req as Parameters<typeof io.engine.handleUpgrade>[0], socket, head);
    },
    async close() {
      endBeats();
      io.disconnectSockets(true);
      io.engine.close();
    },
  };
}

/** As the raw sockets do: one frame of a page in each turn of the event loop, however many came at once. */
class OneFrameATurn extends WebSocketServer {
  constructor(options: ConstructorParameters<typeof WebSocketServer>[0]) {
    super({ ...options, allowSynchronousEvents: false });
  }
}

/** The WebSocket under a page's socket; engine.io has it, but does not tell of it. */
const tapOf = (page: Page): Tap => (page.conn.transport as unknown as { readonly socket: Tap }).socket;

function seatPage(page: Page, holder: Holder, parts: SocketParts): void {
  const { ports, pulse, turns, runTakes, clock, report } = parts;
  const rights = RIGHTS[holder.role];
  const name = `page:${page.id}`;
  const sender = createSender(turns, tapOf(page));
  const joinsNow = createPerSecond(JOINS_A_SECOND);
  let seat: Seat | null = null;

  const leave = (): void => {
    if (seat === null) return;
    const { run, leave } = seat;
    seat = null;
    leave();
    run.hearing(name, null);
    run.sourceClosed(name);
  };

  const join = (ask: unknown): Joined => {
    const checked = messages.check(messages.joinAsk, ask);
    if (!checked.ok) return checked;
    if (!joinsNow(performance.now())) return TOO_MANY_JOINS;
    const { run: id, role } = checked.value;
    if (!rights.joins.includes(role)) return refusal('not-allowed', `a ${holder.role} key cannot join as ${role}`);
    const run = ports.run(id);
    if (run === undefined) return refusal('no-such-run', `there is no run ${id}`);
    // One that joins again on its own socket was never away.
    if (seat?.run === run && seat.role === role) seat.leave();
    else leave();
    seat = { run, role, leave: tell(page, run, pulse) };
    if (role === 'sawyer') run.pageCame(name);
    return { ok: true, view: run.view(), plan: run.plan, clips: run.clips, speaking: run.speaking() };
  };

  const reading = async (value: unknown): Promise<Answer> => {
    const parsed = checkFeedFrame(value);
    if (!parsed.ok) return parsed;
    if (seat === null) return NOT_JOINED;
    const { kind } = parsed.frame;
    if (!rights.readings.includes(kind))
      return refusal('not-allowed', `a ${holder.role} key may not send ${kind} readings`);
    if (!runTakes(seat.run.run, name)) return TOO_MANY_FOR_THE_RUN;
    return seat.run.reading(name, parsed.frame);
  };

  const command = async (value: unknown): Promise<Answer> => {
    const checked = messages.check(messages.command, value);
    if (!checked.ok) return checked;
    if (seat === null) return NOT_JOINED;
    if (!rights.commands.includes(checked.value))
      return refusal('not-allowed', `a ${holder.role} key may not give the command ${checked.value}`);
    return seat.run.command(checked.value);
  };

  const hearing = (value: unknown) => {
    const checked = messages.check(messages.listener, value);
    if (!checked.ok) return checked;
    if (seat === null) return NOT_JOINED;
    // In the role that the page has joined in, whatever it says of itself.
    seat.run.hearing(name, { ...checked.value, role: seat.role });
    // From now on its silence counts, though nothing more should ever come.
    seat.run.alive(name);
    return { ok: true };
  };

  const unplayed = (value: unknown) => {
    const checked = messages.check(messages.unplayed, value);
    if (!checked.ok) return checked;
    if (seat === null) return NOT_JOINED;
    seat.run.unplayed(name, checked.value);
    return { ok: true };
  };

  /** Whatever a page sends and whatever goes wrong, it gets an answer if it asked for one, and the server lives on. */
  const handle = (event: keyof PageToServer, work: (value: unknown) => unknown): void => {
    page.on(event, (...sent: unknown[]) => {
      const answered = async (): Promise<void> => {
        let answer: unknown;
        try {
          answer = await work(typeof sent[0] === 'function' ? undefined : sent[0]);
        } catch (error) {
          report(error);
          const onDisk = storageFault(error);
          answer =
            onDisk === null
              ? refusal('failed', 'the server could not do this: take it as not done')
              : { ok: false, error: onDisk.error };
        }
        replyTo(sent, answer);
      };
      // The time is asked for to be told at once.
      if (event === 'clock') void answered();
      else sender.do(seat?.run.run ?? name, () => void answered());
    });
  };

  // Every packet counts, those too that are no event.
  let verdict: FrameVerdict = 'take';
  page.conn.on('packet', () => {
    verdict = sender.arrived();
    if (verdict !== 'close') return;
    sender.letGo();
    page.disconnect(true);
  });
  page.use((packet, next) => {
    if (verdict === 'take') next();
    else if (verdict === 'refuse') replyTo(packet, TOO_MANY);
  });
  handle('join', join);
  handle('reading', reading);
  handle('command', command);
  handle('hearing', hearing);
  handle('unplayed', unplayed);
  handle('clock', clock);
  page.conn.on('packet', () => seat?.run.alive(name));
  // Behind all that it sent before.
  page.on('disconnect', () => sender.do(seat?.run.run ?? name, leave));
}

const replyTo = (sent: readonly unknown[], answer: unknown): void => {
  const reply = sent.findLast((each) => typeof each === 'function');
  reply?.(answer);
};

/** Passes on to a page what its run decides. Gives the end of it. */
function tell(page: Page, run: RunPort, pulse: SocketParts['pulse']): () => void {
  const unfollow = run.follow({
    view: (view) => page.emit('view', view),
    call: (call) => page.emit('call', call),
    cancel: (id) => page.emit('cancel', id),
    notice: (notice) => page.emit('notice', notice),
  });
  const endPulse = pulse.follow(run, (guide) => page.volatile.emit('guide', guide));
  return () => {
    endPulse();
    unfollow();
  };
}

const refusal = (code: string, message: string): { readonly ok: false; readonly error: WireError } => ({
  ok: false,
  error: { code, message },
});
const NOT_JOINED = refusal('not-joined', 'join a run first');
const TOO_MANY_JOINS = refusal('too-many', `a page joins at most ${JOINS_A_SECOND} times a second`);
