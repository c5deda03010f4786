import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ATTACKS, type AttackName } from '../attack/attacks.ts';
import { beginAttack, type HonestRun, honestRun } from '../attack/underAttack.ts';
import { DOOR, startProgram } from '../kit/program.ts';

const FOR_MS = 4000;
const TIMES_THE_QUIET = 5;

/** An honest run's acknowledgements with nobody else there, and under each attack in turn, on one program. */
export async function starved(): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'by-the-mark-'));
  const program = await startProgram(dataDir, [], DOOR);
  try {
    const quiet = await honestRun(program.url, 2 * FOR_MS);
    console.log(row('quiet', quiet, quiet));
    const only = process.env.ATTACK;
    for (const name of Object.keys(ATTACKS) as AttackName[]) {
      if (only !== undefined && !name.includes(only)) continue;
      const end = await beginAttack(name, program.url);
      try {
        console.log(row(name, await honestRun(program.url, FOR_MS), quiet));
      } finally {
        await end();
      }
    }
  } finally {
    await program.end('SIGKILL');
    rmSync(dataDir, { recursive: true, force: true });
  }
}

const p99 = (timesMs: readonly number[]): number =>
  timesMs.toSorted((a, b) => a - b)[Math.ceil(0.99 * timesMs.length) - 1] ?? Number.NaN;

function row(name: string, run: HonestRun, quiet: HonestRun): string {
  const figures = (which: 'countsMs' | 'pressesMs'): string => {
    const [here, there] = [p99(run[which]), p99(quiet[which])];
    const mark = here <= TIMES_THE_QUIET * there ? ' ' : '!';
    return `${here.toFixed(1).padStart(7)} ${`x${(here / there).toFixed(1)}`.padStart(6)}${mark} ${Math.max(
      ...run[which],
    )
      .toFixed(0)
      .padStart(5)}`;
  };
  return `${name.padEnd(32)} counts p99 ${figures('countsMs')}   presses p99 ${figures('pressesMs')}   refused ${run.refused.length} ${[...new Set(run.refused)].join(',')} ${run.wasLost ? 'LOST' : 'never lost'}`;
}
