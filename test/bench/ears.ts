import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { draws } from '../../server/core/numeric/draws.ts';
import { outsideClient } from '../kit/client.ts';
import { crash, type Ear, openEar, stall } from '../kit/hiccups.ts';
import { unixMs } from '../kit/outsideFeed.ts';
import { DOOR, startProgram } from '../kit/program.ts';
import { spread } from './spread.ts';

/** Runs of a simulated feed at the same time, so that half an hour of them takes less. More pages than cores hold each other up. */
const AT_ONCE = Number(process.env.BENCH_AT_ONCE ?? 2);
const RUN_MINUTES = Number(process.env.BENCH_MINUTES ?? 30);
const KILLS = Number(process.env.BENCH_KILLS ?? 24);
const FEED_M_PER_MIN = 2.2;
const MOST_STALL_MS = 800;
const TOLD_WITHIN_MS = 1500;

interface House {
  readonly url: string;
}
interface Tally {
  feedingMs: number;
  readonly lost: string[];
  stalls: number;
  breaks: number;
  calls: number;
  again: number;
}

/**
 * Runs whose only listener is a page in a real browser. First its main thread stalls for up to 0.8 s and its connection breaks, again
 * and again: none of it may end a run. Then pages are killed, or their line goes dead: how soon that is told.
 */
export async function ears(): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'by-the-mark-bench-'));
  const program = await startProgram(dataDir, [], DOOR);
  const house = { url: program.url };
  try {
    const tally: Tally = { feedingMs: 0, lost: [], stalls: 0, breaks: 0, calls: 0, again: 0 };
    await several(async (lane) => {
      for (let seed = lane; tally.feedingMs < RUN_MINUTES * 60_000; seed += AT_ONCE) await hiccups(house, seed, tally);
    });
    console.log(
      `${(tally.feedingMs / 60_000).toFixed(1)} minutes of runs, ${AT_ONCE} at a time: ${tally.stalls} stalls of up to ${MOST_STALL_MS} ms, ${tally.breaks} broken connections, ${tally.calls} calls (${tally.again} of them said again): ${tally.lost.length} runs lost`,
    );
    for (const why of tally.lost) console.log(`  lost: ${why}`);
    const told: Told[] = [];
    await several(async (lane) => {
      for (let kill = lane; kill < KILLS; kill += AT_ONCE) told.push(await killed(house, kill));
    });
    for (const how of HOWS) {
      const these = told.filter((each) => each.how === how);
      console.log(
        spread(
          `${how} -> told`,
          these.map(({ afterMs }) => afterMs),
        ),
      );
      const before = these.filter(({ isBeforeCall }) => isBeforeCall).length;
      const late = these.filter(({ afterMs, isBeforeCall }) => !isBeforeCall && afterMs > TOLD_WITHIN_MS).length;
      console.log(`  ${before} of ${these.length} before a call began; neither that nor within 1.5 s: ${late}`);
    }
  } finally {
    await program.end('SIGKILL');
    rmSync(dataDir, { recursive: true, force: true });
  }
}

const several = (work: (lane: number) => Promise<void>): Promise<unknown> =>
  Promise.all(Array.from({ length: AT_ONCE }, (_, lane) => work(lane)));
const later = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

async function started({ url }: House, seed: number) {
  const here = outsideClient(url);
  const { run } = await here.makeDemoRun('pair', { kind: 'simulated', mPerMin: FEED_M_PER_MIN, seed });
  const ear = await openEar(url, run);
  await here.post(`/api/runs/${run}/start`);
  return { here, run, ear, beganMs: unixMs() };
}

async function hiccups(house: House, seed: number, tally: Tally): Promise<void> {
  const { here, run, ear, beganMs } = await started(house, seed);
  const random = draws(seed + 1).even;
  const state = async (): Promise<string> => (await here.get(`/api/runs/${run}`)).json.state;
  let isFeeding = true;
  const befell: { readonly what: string; readonly atMs: number }[] = [];
  const stalling = (async () => {
    while (isFeeding) {
      await later(1000 + 2500 * random());
      const askedMs = MOST_STALL_MS * random();
      const forMs = await stall(ear.page, askedMs);
      befell.push({ what: `stall of ${forMs.toFixed(0)} ms (${askedMs.toFixed(0)} asked)`, atMs: unixMs() - forMs });
      tally.stalls += 1;
    }
  })();
  const breaking = (async () => {
    while (isFeeding) {
      await later(3000 + 6000 * random());
      befell.push({ what: 'break', atMs: unixMs() });
      ear.line.breakAll();
      tally.breaks += 1;
    }
  })();
  while ((await state()) === 'feeding') await later(500);
  tally.feedingMs += unixMs() - beganMs;
  isFeeding = false;
  await Promise.all([stalling, breaking]);
  const lines = await here.journal(run);
  /** What came in the three seconds before the loss, oldest first: what befell the page, and what was called. */
  const before = (lostMs: number): string =>
    [
      ...befell,
      ...lines.flatMap(({ kind, atMs, deg }) =>
        kind === 'called' && deg !== undefined ? [{ what: 'call', atMs }] : [],
      ),
    ]
      .filter(({ atMs }) => atMs <= lostMs && atMs > lostMs - 3000)
      .toSorted((a, b) => a.atMs - b.atMs)
      .map(({ what, atMs }) => `${what} ${(lostMs - atMs).toFixed(0)} ms before`)
      .join(', ');
  tally.calls += lines.filter(({ kind, deg }) => kind === 'called' && deg !== undefined).length;
  tally.again += lines.filter(({ kind }) => kind === 'unheard').length;
  for (const line of lines)
    if (line.kind === 'signal-lost')
      tally.lost.push(
        `run ${seed} after ${((line.atMs - beganMs) / 1000).toFixed(1)} s: ${line.detail} ${before(line.atMs)}`,
      );
  await ear.close();
}

const HOWS = ['page killed', 'page closed', 'line dead'] as const;
interface Told {
  readonly how: (typeof HOWS)[number];
  readonly afterMs: number;
  readonly isBeforeCall: boolean;
}

async function killed(house: House, index: number): Promise<Told> {
  const how = HOWS[index % HOWS.length] ?? 'line dead';
  const { here, run, ear } = await started(house, 1000 + index);
  await later(4000 + 400 * index);
  const atMs = unixMs();
  await end(ear, how);
  let lines = await here.journal(run);
  for (let i = 0; i < 50 && !lines.some(({ kind }) => kind === 'signal-lost'); i += 1) {
    await later(100);
    lines = await here.journal(run);
  }
  const lost = lines.find(({ kind }) => kind === 'signal-lost');
  const call = lines.find(
    ({ kind, deg, startsAtMs }) => kind === 'called' && deg !== undefined && Number(startsAtMs) > atMs,
  );
  const lostAtMs = lost?.atMs ?? Number.POSITIVE_INFINITY;
  await here.post(`/api/runs/${run}/finish`);
  await ear.close();
  return { how, afterMs: lostAtMs - atMs, isBeforeCall: call === undefined || lostAtMs <= Number(call.startsAtMs) };
}

async function end(ear: Ear, how: Told['how']): Promise<void> {
  if (how === 'page killed') await crash(ear.page);
  else if (how === 'page closed') await ear.page.close();
  else ear.line.goDead();
}
