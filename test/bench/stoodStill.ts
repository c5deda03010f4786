import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { draws } from '../../server/core/numeric/draws.ts';
import { outsideClient } from '../kit/client.ts';
import { outsideFeed } from '../kit/outsideFeed.ts';
import { DOOR, startProgram } from '../kit/program.ts';

const TRIALS = Number(process.env.BENCH_TRIALS ?? 30);
const LONG_MS = 3000;
/** Under the half second that a source may be silent. */
const SHORT_MS = 350;

const later = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

/** The program is stopped (SIGSTOP) and let go on (SIGCONT) in a moving run, at any moment of it: what the run is then, and what it called. */
export async function stoodStill(): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'by-the-mark-bench-'));
  const program = await startProgram(dataDir, [], DOOR);
  const here = outsideClient(program.url);
  const random = draws(1).even;

  async function trial(seed: number, forMs: number) {
    const { run } = await here.makeDemoRun();
    const feed = await here.socket(`/feed?run=${run}`);
    await here.post(`/api/runs/${run}/start`);
    const wood = outsideFeed({ mPerMin: 3, seed }, (frame) => feed.send(frame));
    await later(1500 + 4000 * random());
    const stoppedAtMs = Date.now();
    program.child.kill('SIGSTOP');
    await later(forMs);
    program.child.kill('SIGCONT');
    await later(700);
    const { state } = (await here.get(`/api/runs/${run}`)).json;
    wood.end();
    feed.close();
    const lines = await here.journal(run);
    const called = lines.filter(
      ({ kind, deg, atMs }) => kind === 'called' && deg !== undefined && atMs > stoppedAtMs + 50,
    );
    await here.post(`/api/runs/${run}/finish`);
    return { state, isCalled: called.length > 0 };
  }

  for (const forMs of [LONG_MS, SHORT_MS]) {
    const seen: Awaited<ReturnType<typeof trial>>[] = [];
    for (let seed = 0; seed < TRIALS; seed += 1) seen.push(await trial(seed, forMs));
    const feeding = seen.filter(({ state }) => state === 'feeding').length;
    const called = seen.filter(({ isCalled }) => isCalled).length;
    console.log(
      `stood still for ${forMs} ms: ${feeding} of ${TRIALS} stayed feeding, ${called} called a bevel afterwards`,
    );
  }
  await program.end('SIGKILL');
  rmSync(dataDir, { recursive: true, force: true });
}
