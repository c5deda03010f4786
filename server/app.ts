/** The one place where the rooms meet: journal, live runs, voice, planner, signals and web, put together into a server. */
import { randomInt } from 'node:crypto';
import { mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openClips } from '../audio/clips.ts';
import { makeSetup } from './core/run/makeSetup.ts';
import type { RunSetup } from './core/run/state.ts';
import { phrasesOfRun } from './core/words/phrases.ts';
import { loadDemo } from './demo/loadDemo.ts';
import { openJournal } from './journal/openJournal.ts';
import { createCrew } from './live/crew.ts';
import type { LiveRun } from './live/liveRun.ts';
import { createLiveRuns } from './live/liveRuns.ts';
import { startSimulatedFeed } from './signals/simulatedFeed.ts';
import { lanAccess } from './web/access/lanAccess.ts';
import { openAccess } from './web/access/openAccess.ts';
import { createWeb } from './web/createWeb.ts';
import type { JobFiles, PlanAsk, Planned, WebPorts } from './web/ports.ts';
import { clipUrl } from './wire/clipUrl.ts';
import type { Clip } from './wire/messages.ts';
import { quote } from './wire/showFound.ts';
import { createPlanner } from './workers/createPlanner.ts';

export interface AppNeeds {
  /** Made if it is not there. */
  readonly dataDir: string;
  /** Offered on the start page beside the demo, and before it. */
  readonly job?: JobFiles & { readonly name: string; readonly title: string };
  readonly lan: boolean;
  readonly host: string;
  /** 0 takes a free one. */
  readonly port: number;
}
export interface App {
  readonly url: string;
  /** With `lan`: the address that opens the sawyer's console. */
  readonly consoleUrl?: string;
  close(): Promise<void>;
}

/**
 * Starts everything and settles once it answers. Rejects with a JournalError (folder in use, damaged, not writable) or Node's
 * own error (port taken); nothing is left running then.
 */
export async function createApp(needs: AppNeeds): Promise<App> {
  await mkdir(needs.dataDir, { recursive: true });
  const journal = openJournal({ file: join(needs.dataDir, 'journal.sqlite') });
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

type Closers = (() => void | Promise<void>)[];

async function furnish(
  needs: AppNeeds,
  journal: ReturnType<typeof openJournal>,
  closers: Closers,
): Promise<Omit<App, 'close'>> {
  const clips = openClips({ dataDir: needs.dataDir });
  closers.push(() => clips.close());
  const planner = createPlanner();
  closers.push(() => planner.close());
  const feeds: { stop(): void }[] = [];
  const runs = createLiveRuns({
    journal,
    nowMs,
    haveSeen,
    onOpened: (run) => feedSimulated(run, feeds),
    report: console.error,
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

  async function planFor({ tiltHand, ...job }: PlanAsk): Promise<Planned> {
    if (tiltHand === undefined) return planner.plan(job);
    const member = crew.member(tiltHand);
    return member === undefined ? nobodyCalled(tiltHand) : planner.plan({ ...job, tiltHand: member });
  }

  const ports: WebPorts = {
    crew,
    plan: planFor,
    async makeRun({ mode, routine, feed, ...ask }) {
      const planned = await planFor(ask);
      if (!planned.ok) return planned;
      const { plan } = planned;
      const silent = makeSetup(plan, mode, {}, routine);
      const spoken = await speakRun(silent);
      const durationsMs = Object.fromEntries(spoken.map(({ text, durationMs }) => [text, durationMs]));
      const run = runs.keep({
        run: newRunId(),
        title: plan.title,
        feed,
        plan,
        setup: { ...silent, durationsMs },
        clips: spoken,
        madeAtMs: nowMs(),
      });
      return { ok: true, run };
    },
    run: (id) => runs.get(id),
    runs: () => runs.list(),
    jobs: () => jobs.map(({ name, title }) => ({ name, title })),
    job: (name) => {
      const found = jobs.find((offered) => offered.name === name);
      return found && { job: found.job, files: found.files };
    },
    clipFile: (file) => clips.pathOf(file.replace(/\.wav$/, '')),
  };

  /** Rendered before the run is made, so that nothing is synthesised while wood moves. */
  async function speakRun(setup: RunSetup): Promise<Clip[]> {
    const phrases = phrasesOfRun(setup);
    const rendered = await clips.render(phrases.map(({ text }) => text));
    return phrases.map((phrase, index) => {
      const clip = rendered[index];
      if (clip === undefined) throw new Error(`"${phrase.text}" was not rendered`);
      return { ...phrase, url: clipUrl(clip.key), durationMs: clip.durationMs };
    });
  }

  const access = needs.lan ? await lanAccess(needs.dataDir) : openAccess();
  const web = createWeb({ ports, access, pagesDir: PAGES, version: await readVersion(), clock: nowMs });
  closers.push(() => web.close());
  closers.push(() => runs.rest());
  const url = await web.listen(needs.port, needs.host);
  return access.consoleKey === null ? { url } : { url, consoleUrl: `${url}/?key=${access.consoleKey}` };
}

const nobodyCalled = (name: string): Planned => ({
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
  const turnMs = (1000 * Math.abs(deg)) / (plan.saw.degreesPerTurn * plan.crew.turnsPerS);
  return 1000 + wordsMs + 1000 * plan.crew.reactionS + turnMs;
}

async function offeredJobs(own: AppNeeds['job']): Promise<readonly (JobFiles & { name: string; title: string })[]> {
  const demo = await loadDemo();
  return own === undefined ? [demo] : [own, demo];
}

/** How far the clock of this machine lies behind the newest time in the journal: it may have been set back since. */
let behindMs = 0;
/** Unix time with fractions of a millisecond, and steady: a clock that is put right does not make a run's time jump. */
const nowMs = (): number => performance.timeOrigin + performance.now() + behindMs;
const haveSeen = (atMs: number): void => {
  behindMs += Math.max(0, atMs - nowMs());
};

/** Short enough to be read out, and without letters that are taken for one another. */
const newRunId = (): string => Array.from({ length: 8 }, () => RUN_LETTERS[randomInt(RUN_LETTERS.length)]).join('');
const RUN_LETTERS = 'abcdefghkmnpqrstwxyz23456789';

const PAGES = fileURLToPath(new URL('../client/dist', import.meta.url));

async function readVersion(): Promise<string> {
  const text = await readFile(new URL('../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
