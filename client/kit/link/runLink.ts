/** The page's line to one run: joins, follows, notices within half a second that the server is gone, and comes back by itself. */
import { io, type Socket } from 'socket.io-client';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { Call, Notice } from '../../../server/core/run/engine/events.ts';
import type { Guide } from '../../../server/core/run/view/guide.ts';
import type { FeedFrame } from '../../../server/wire/message/feedFrame.ts';
import type {
  Answer,
  Clip,
  Command,
  Listener,
  PageToServer,
  Role,
  RunView,
  ServerToPage,
} from '../../../server/wire/message/messages.ts';
import type { WireError } from '../../../server/wire/problem/wireError.ts';
import { BeatWatch } from './beatWatch.ts';
import { ServerClock } from './serverClock.ts';
import { makeStore, type Store } from './store.ts';

export interface RunLinkState {
  /** `joining` until first joined, `gone` while nothing is heard of the server, `refused` when it will not have us. */
  readonly line: 'joining' | 'here' | 'gone' | 'refused';
  readonly refusal: WireError | null;
  readonly view: RunView | null;
  readonly plan: Plan | null;
  readonly clips: readonly Clip[];
  /** The call given out last; null once it was taken back. */
  readonly call: Call | null;
}

interface RunListeners {
  readonly guide?: (guide: Guide) => void;
  readonly call?: (call: Call) => void;
  readonly cancel?: (id: string) => void;
  /** Told at this moment; what is to be shown, and for how long, the view says. */
  readonly notice?: (notice: Notice) => void;
  /** `speaking`: what is being said at this moment. */
  readonly joined?: (clips: readonly Clip[], speaking: Call | null) => void;
}

export interface RunLink {
  readonly state: Store<RunLinkState>;
  /** Server time in this page's `performance.now()`, and back; null until the server's clock was heard. */
  toLocalMs(serverMs: number): number | null;
  toServerMs(localMs: number): number | null;
  send(frame: FeedFrame): Promise<Answer>;
  command(command: Command): Promise<Answer>;
  hearing(listener: Listener): void;
  unplayed(id: string, reason: string): void;
  listen(listeners: RunListeners): () => void;
}

const ANSWER_LIMIT_MS = 3000;
const PROBE_EVERY_MS = 4000;
const FIRST_PROBES = 8;
const COME_BACK_MS = 500;

const notHere: Answer = {
  ok: false,
  error: { code: 'server-gone', message: 'The server is gone: this was not sent. Do it again when it is back.' },
};
const notAnswered: Answer = {
  ok: false,
  error: { code: 'not-answered', message: 'The server did not answer: look at the state before you do it again.' },
};

export function openRunLink(run: string, role: Role): RunLink {
  const state = makeStore<RunLinkState>({
    line: 'joining',
    refusal: null,
    view: null,
    plan: null,
    clips: [],
    call: null,
  });
  const clock = new ServerClock();
  const listeners = new Set<RunListeners>();
  const socket: Socket<ServerToPage, PageToServer> = io({
    transports: ['websocket'],
    // An ear that was held up when its line broke has little time left.
    reconnectionDelay: 20,
    randomizationFactor: 0.2,
    reconnectionDelayMax: 700,
    timeout: 3000,
  });
  const watch = new BeatWatch(() => gone());

  function gone(): void {
    if (state.get().line === 'here') state.change({ line: 'gone', call: null });
  }

  function probe(): void {
    const sentMs = performance.now();
    socket.volatile.emit('clock', (serverMs) => clock.add({ sentMs, serverMs, receivedMs: performance.now() }));
  }

  function join(): void {
    // A new connection may be another server, or this device may have slept.
    clock.forget();
    for (let i = 0; i < FIRST_PROBES; i++) setTimeout(probe, i * 60);
    socket.emit('join', { run, role }, (joined) => {
      if (!joined.ok) {
        watch.stop();
        state.change({ line: 'refused', refusal: joined.error });
        return;
      }
      state.change({
        line: 'here',
        refusal: null,
        view: joined.view,
        plan: samePlan(state.get().plan, joined.plan),
        clips: joined.clips,
      });
      watch.beat();
      for (const { joined: told } of listeners) told?.(joined.clips, joined.speaking);
    });
  }

  socket.on('connect', join);
  socket.on('disconnect', (reason) => {
    gone();
    // A server that ends in good order says so, and then the socket does not come back by itself.
    if (reason === 'io server disconnect') setTimeout(() => socket.connect(), COME_BACK_MS);
  });
  socket.on('beat', (serverMs) => {
    clock.heard(serverMs, performance.now());
    watch.beat();
    // The line was silent but never broke: whatever was missed meanwhile is asked for again.
    if (state.get().line === 'gone' && socket.connected) join();
  });
  socket.on('view', (view) => state.change({ view }));
  socket.on('guide', (guide) => {
    clock.heard(guide.atMs, performance.now());
    for (const { guide: told } of listeners) told?.(guide);
  });
  socket.on('call', (call) => {
    for (const { call: told } of listeners) told?.(call);
    state.change({ call });
  });
  socket.on('cancel', (id) => {
    for (const { cancel: told } of listeners) told?.(id);
    if (state.get().call?.id === id) state.change({ call: null });
  });
  socket.on('notice', (notice) => {
    for (const { notice: told } of listeners) told?.(notice);
  });
  setInterval(() => {
    if (socket.connected) probe();
  }, PROBE_EVERY_MS);

  /** Never kept for later: a press that arrives when the server is back would be a lie about the wood. */
  function ask(
    emit: (answer: (error: Error | null, answer: Answer) => void) => void,
    isStop: boolean,
  ): Promise<Answer> {
    // Only a stop may still reach a server that has fallen silent: it is right however late it comes.
    if (!socket.connected || (state.get().line !== 'here' && !isStop)) return Promise.resolve(notHere);
    return new Promise((settle) => emit((error, answer) => settle(error === null ? answer : notAnswered)));
  }

  return {
    state,
    toLocalMs: (serverMs) => (clock.offsetMs === null ? null : serverMs - clock.offsetMs),
    toServerMs: (localMs) => (clock.offsetMs === null ? null : localMs + clock.offsetMs),
    send: (frame) =>
      ask(
        (answer) => socket.timeout(ANSWER_LIMIT_MS).emit('reading', frame, answer),
        frame.kind === 'pedal' && frame.gesture === 'stop',
      ),
    command: (command) =>
      ask((answer) => socket.timeout(ANSWER_LIMIT_MS).emit('command', command, answer), command === 'stop-feed'),
    hearing: (listener) => {
      if (socket.connected) socket.emit('hearing', listener);
    },
    unplayed: (id, reason) => {
      if (socket.connected) socket.emit('unplayed', { id, reason });
    },
    listen(added) {
      listeners.add(added);
      return () => listeners.delete(added);
    },
  };
}

/** A connection made anew brings the same plan again: what is drawn and remembered by it goes on. */
const samePlan = (known: Plan | null, joined: Plan): Plan =>
  known !== null && JSON.stringify(known) === JSON.stringify(joined) ? known : joined;
