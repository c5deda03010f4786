import { spawn } from 'node:child_process';
import { copyFileSync, mkdirSync, statSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { build } from 'vite';
import { beforeAll, expect, it } from 'vitest';
import { openJournal } from '../../server/journal/openJournal.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { entryAt } from './entryAt.ts';
import { madeUpRun } from './madeUpRun.ts';

const KILLS = 25;
// Inside the checkout, so that the child finds its packages.
const built = join(import.meta.dirname, '../../node_modules/.cache/appending-child');

// Built once: a child then starts in a tenth of the time that it takes through tsx.
beforeAll(async () => {
  await build({
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: join(import.meta.dirname, 'appendingChild.ts'),
      outDir: built,
      emptyOutDir: true,
      rolldownOptions: { output: { entryFileNames: 'child.mjs' } },
    },
  });
});

/** Lets a child append until it has acknowledged `count` groups, then kills it wherever it stands. Gives what it acknowledged. */
async function appendUntilKilled(file: string, run: string, count: number): Promise<number[]> {
  const child = spawn(process.execPath, [join(built, 'child.mjs'), file, run], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const acknowledged: number[] = [];
  for await (const line of createInterface({ input: child.stdout })) {
    acknowledged.push(Number(line));
    if (acknowledged.length === count) child.kill('SIGKILL');
  }
  return acknowledged;
}

it(`loses nothing acknowledged and leaves no gap when the writer is killed ${KILLS} times`, async () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const opened = openJournal({ file });
  opened.keepRun(madeUpRun('r1'));
  opened.close();

  let last = 1;
  for (let kill = 0; kill < KILLS; kill++) {
    const acknowledged = await appendUntilKilled(file, 'r1', 1 + ((kill * 7) % 40));
    expect(acknowledged[0]).toBeGreaterThan(last);
    // Opened at once: the lock went with the process.
    const journal = openJournal({ file, waitMs: 0 });
    const lines = [...journal.lines('r1')];
    journal.close();
    expect(lines.length).toBeGreaterThanOrEqual(acknowledged.at(-1) ?? Number.NaN);
    expect(lines.map(({ seq }) => seq)).toEqual(lines.map((_, index) => index + 1));
    expect(lines.slice(1)).toEqual(lines.slice(1).map(({ seq }) => ({ seq, ...entryAt(seq) })));
    last = lines.length;
  }
});

it('gives whole groups from the first one on, wherever the power left the write-ahead log', () => {
  const dir = freeDataDir();
  const file = join(dir, 'journal.sqlite');
  const journal = openJournal({ file });
  journal.keepRun(madeUpRun('r1'));
  journal.close();
  // Reopened, the log begins empty and holds the appends alone.
  const writer = openJournal({ file });
  const ends = [1];
  const logSizes = [0];
  for (let group = 0; group < 12; group++) {
    const last = ends.at(-1) ?? 1;
    ends.push(writer.append('r1', last, [entryAt(last + 1), entryAt(last + 2)]));
    logSizes.push(statSync(`${file}-wal`).size);
  }
  const copy = join(dir, 'copy');
  mkdirSync(copy);
  const size = logSizes.at(-1) ?? 0;
  for (let cut = 0; cut <= size; cut += 613) {
    const cutFile = join(copy, `cut-${cut}.sqlite`);
    copyFileSync(file, cutFile);
    copyFileSync(`${file}-wal`, `${cutFile}-wal`);
    truncateSync(`${cutFile}-wal`, cut);
    const found = openJournal({ file: cutFile });
    const lines = [...found.lines('r1')];
    found.close();
    const whole = logSizes.filter((logSize) => logSize <= cut).length - 1;
    expect(lines.length, `log cut to ${cut} of ${size} bytes`).toBe(ends[Math.max(whole, 0)]);
  }
  writer.close();
});
