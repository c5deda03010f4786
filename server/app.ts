/** The one place where the rooms meet: journal, live runs, voice, planner, signals and web, put together into a server. */
import { mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findFilePlayers } from '../audio/players/filePlayers.ts';
import { findSayPlayer } from '../audio/players/sayPlayer.ts';
import { createLoudspeaker, type ServerLoudspeaker } from '../audio/serverLoudspeaker.ts';
import { openVoices, type Voices } from '../audio/voicesHere.ts';
import { againstRun, inSpiteOf, isRefused } from './core/plan/forbids.ts';
import { withSquare } from './core/plan/squareAtZero.ts';
import { crewTime } from './core/routine/crewTime.ts';
import { timeBetweenS } from './core/saw/handwheel.ts';
import { phrases } from './core/words/phrases.ts';
import { loadDemo, loadOffsetsDemo } from './demo/loadDemo.ts';
import { openJournal } from './journal/openJournal.ts';
import { createCrew } from './live/crewMemory.ts';
import type { LiveRun } from './live/liveRun.ts';
import { createLiveRuns } from './live/liveRuns.ts';
import { type NewRun, runMaker } from './live/newRun.ts';
import { createOwnTime } from './live/ownTime.ts';
import { createPress } from './paper/createPress.ts';
import { startSimulatedFeed } from './signals/simulatedFeed.ts';
import { lanAccess } from './web/access/lanAccess.ts';
import { openAccess } from './web/access/openAccess.ts';
import { createWeb } from './web/createWeb.ts';
import { createTurns } from './web/fairTurns.ts';
import type { JobFiles, PlanAsk, Planned, WebPorts } from './web/webPorts.ts';
import { clipUrl, keyOfClipUrl } from './wire/message/clipUrl.ts';
import { quote } from './wire/problem/showFound.ts';
import { createPlanner } from './workers/createPlanner.ts';
import { createReader } from './workers/createReader.ts';
import type { PlanTask } from './workers/planWorker.ts';

export interface AppNeeds {
  /** Made if it is not there. */
  readonly dataDir: string;
  /** Offered on the start page beside the demo, and before it. */
  readonly job?: JobFiles & { readonly name: string; readonly title: string };
  readonly lan: boolean;
  /** The calls are also spoken by this machine's own loudspeaker. */
  readonly loudspeaker?: boolean;
  readonly host: string;
  /** 0 takes a free one. */
  readonly port: number;
}
export interface App {
  readonly url: string;
  /** With `lan`: the address that opens the sawyer's console. */
  readonly consoleUrl?: string;
  /** With `loudspeaker`: the program that plays. */
  readonly player?: string;
  close(): Promise<void>;
}

/**
 * Starts everything and settles once it answers. Rejects with a JournalError (folder in use, damaged, not writable), NoPlayer or
 * Node's own error (port taken); nothing is left running then.
 */
export async function createApp(needs: AppNeeds): Promise<App> {
  await mkdir(needs.dataDir, { recursive: true });
  const journal = openJournal({ file: join(needs.dataDir, 'journal.sqlite') });
  for (const run of journal.cutShort(LOOKED_AT))
    console.error(`run ${run}: the end of its record is missing or damaged; the list of runs and its record say what`);
  const closers: (() => void | Promise<void>)[] = [() => journal.close()];
  const close = async (): Promise<void> => {
    for (const closer of closers.splice(0).reverse()) await closer();
  };
  try {
    return { ...(await furnish(needs, journal, closers)), close };
  } catch (error) {
    await close();
    throw error;
  }
}

/** So many of the newest runs are looked at when the server starts. */
const LOOKED_AT = 50;

/** A loudspeaker was asked for, and this machine has nothing that plays a sound. */
export class NoPlayer extends Error {
  override readonly name = 'NoPlayer';
}

type Closers = (() => void | Promise<void>)[];

async function furnish(
  needs: AppNeeds,
  journal: ReturnType<typeof openJournal>,
  closers: Closers,
): Promise<Omit<App, 'close'>> {
  const voices = openVoices({ dataDir: needs.dataDir });
  closers.push(() => voices.close());
  const planner = createPlanner();
  closers.push(() => planner.close());
  const reader = createReader();
  closers.push(() => reader.close());
  const press = createPress();
  closers.push(() => press.close());
  const feeds: { stop(): void }[] = [];
  const ownTime = createOwnTime({ steadyMs: () => performance.now(), wallMs: Date.now });
  closers.push(() => ownTime.close());
  const turns = createTurns(console.error);
  const runs = createLiveRuns({
    journal,
    inTurn: (run, work) => turns.open().add(run, work),
    nowMs,
    haveSeen,
    onOpened: (run) => feedSimulated(run, feeds),
    report: console.error,
    ownTime,
  });
  closers.push(() => runs.close());
  closers.push(() => {
    for (const feed of feeds) feed.stop();
  });
  const crew = createCrew({
    journal,
    run: (id) => runs.get(id),
    nowMs,
    onForgotten: (name) => runs.forgetTiltHand(name),
  });
  const jobs = await offeredJobs(needs.job);
  const loudspeaker = needs.loudspeaker === true ? openLoudspeaker(voices, runs) : null;
  closers.push(() => loudspeaker?.close());
  const joined = (run: LiveRun): LiveRun => {
    loudspeaker?.join(run);
    return run;
  };

  /** What the planning thread is asked; nobody of the crew by that name is a problem. */
  function taskOf({ tiltHand, ...job }: PlanAsk): PlanTask | Extract<Planned, { ok: false }> {
    if (tiltHand === undefined) return job;
    const member = crew.member(tiltHand);
    return member === undefined ? nobodyCalled(tiltHand) : { ...job, tiltHand: member };
  }
  async function planFor(ask: PlanAsk): Promise<Planned> {
    const task = taskOf(ask);
    return 'problems' in task ? task : planner.plan(task);
  }

  const openRun = runMaker(voices, (stored) => runs.keep(stored), nowMs);
  const opened = async (asked: NewRun): ReturnType<WebPorts['makeRun']> => {
    const made = await openRun(asked);
    return made.ok ? { ok: true, run: joined(made.run) } : made;
  };

  const ports: WebPorts = {
    crew,
    sawn: planner,
    readBody: reader.read,
    plan: planFor,
    async planText(ask) {
      const task = taskOf(ask);
      return 'problems' in task ? task : planner.planText(task);
    },
    print: (task) => press.print(task),
    async makeRun({ mode, routine, feed, voice, squareDeg, despite, ...ask }) {
      const planned = await planFor(ask);
      if (!planned.ok) return planned;
      const plan = squareDeg === undefined ? planned.plan : withSquare(planned.plan, squareDeg);
      const against = againstRun(plan, { mode, routine });
      if (isRefused(against, routine, despite)) return { ok: false, forbidden: against };
      const kept = despite === undefined ? plan : inSpiteOf(plan, despite, against);
      return opened({ plan: kept, mode, routine, feed, ...(voice === undefined ? {} : { voice }) });
    },
    async makeAgain(id, seenDeg, despite) {
      const run = runs.get(id);
      if (run === undefined) return undefined;
      const { mode, routine } = run.view();
      const voice = run.clips.find((clip) => clip.voice !== undefined)?.voice;
      const against = againstRun(run.plan, { mode, routine });
      const words = despite ?? run.plan.despite?.words;
      if (isRefused(against, routine, words)) return { ok: false, forbidden: against };
      const square = withSquare(run.plan, seenDeg);
      const plan = words === undefined ? square : inSpiteOf(square, words, against);
      return opened({ plan, mode, routine, feed: run.feed, ...(voice === undefined ? {} : { voice }) });
    },
    run: (id) => {
      const run = runs.get(id);
      return run && joined(run);
    },
    linesOf: (id) => runs.lines(id),
    runs: () => runs.list(),
    jobs: () => jobs.map(({ name, title }) => ({ name, title })),
    job: (name) => {
      const found = jobs.find((offered) => offered.name === name);
      return found && { job: found.job, files: found.files };
    },
    clipFile: (file) => {
      const key = file.replace(/\.wav$/, '');
      return voices.clipFile(key, runs.saidAt(clipUrl(key)));
    },
    voices,
    loudspeaker,
  };

  const access = needs.lan ? await lanAccess(needs.dataDir) : openAccess();
  const web = createWeb({ ports, access, turns, pagesDir: PAGES, version: await readVersion(), clock: nowMs });
  closers.push(() => web.close());
  closers.push(() => runs.rest());
  const url = await web.listen(needs.port, needs.host);
  return {
    url,
    ...(access.consoleKey === null ? {} : { consoleUrl: `${url}/?key=${access.consoleKey}` }),
    ...(loudspeaker === null ? {} : { player: loudspeaker.state().player }),
  };
}

/** The players of this machine; its own voice only where there is none. Throws NoPlayer. */
function openLoudspeaker(voices: Voices, runs: Pick<ReturnType<typeof createLiveRuns>, 'saidAt'>): ServerLoudspeaker {
  const files = findFilePlayers();
  const players = files.length > 0 ? files : [findSayPlayer()].filter((player) => player !== undefined);
  if (players.length === 0) throw new NoPlayer('nothing on this machine plays a sound');
  return createLoudspeaker({
    players,
    nowMs,
    fileOf: ({ url }) => voices.clipFile(keyOfClipUrl(url), runs.saidAt(url)),
    async testWords() {
      const made = await voices.render([phrases.soundTest]);
      const clip = made.ok ? made.clips[0] : undefined;
      const file = clip && (await voices.clipFile(clip.key));
      if (clip === undefined || file === undefined) throw new Error(`"${phrases.soundTest}" was not rendered`);
      return { text: clip.text, file, durationMs: clip.durationMs };
    },
  });
}

const nobodyCalled = (name: string): Extract<Planned, { ok: false }> => ({
  ok: false,
  problems: [
    {
      code: 'unknown-name',
      at: { field: 'tiltHand' },
      found: quote(name),
      wanted:
        'the name of one of the crew of whom something is kept (GET /api/crew), or none: then the job’s own figures hold',
    },
  ],
});

/** A simulated feed goes through the same door as any other source. */
function feedSimulated(run: LiveRun, feeds: { stop(): void }[]): void {
  if (run.feed.kind !== 'simulated' || run.isFinished()) return;
  const { mPerMin, seed } = run.feed;
  const fromMm = run.travelledMm();
  feeds.push(
    startSimulatedFeed({
      mPerMin,
      seed,
      ...(fromMm === undefined ? {} : { fromMm }),
      leadInMs: leadInMs(run),
      isFeeding: run.isFeeding,
      isFinished: run.isFinished,
      send: (mm) => void run.reading('simulated feed', { kind: 'travel', mm }),
    }),
  );
}

/** The wood comes up to the blade while the first bevel is said, heard and turned to from zero. */
function leadInMs({ plan, clips }: LiveRun): number {
  const first = plan.leads === 'head' ? plan.marks.at(-1) : plan.marks[0];
  const deg = first?.callDeg ?? 0;
  const wordsMs = clips.find((clip) => clip.deg === deg)?.durationMs ?? 0;
  return 1000 + crewTime(wordsMs, 1000 * plan.crew.reactionS, 1000 * timeBetweenS(plan, 0, deg, 0));
}

async function offeredJobs(own: AppNeeds['job']): Promise<readonly (JobFiles & { name: string; title: string })[]> {
  const demos = await Promise.all([loadDemo(), loadOffsetsDemo()]);
  return own === undefined ? demos : [own, ...demos];
}

/** How far the clock of this machine lies behind the newest time in the journal: it may have been set back since. */
let behindMs = 0;
/** Unix time with fractions of a millisecond, and steady: a clock that is put right does not make a run's time jump. */
const nowMs = (): number => performance.timeOrigin + performance.now() + behindMs;
const haveSeen = (atMs: number): void => {
  behindMs += Math.max(0, atMs - nowMs());
};

const PAGES = fileURLToPath(new URL('../client/dist', import.meta.url));

async function readVersion(): Promise<string> {
  const text = await readFile(new URL('../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
