import { expect, onTestFinished, test } from 'vitest';
import type { AttackName } from '../attack/attacks.ts';
import { beginAttack, honestRun } from '../attack/underAttack.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';

const FOR_MS = 4000;
/** One of each kind; `npm run bench -- starved` has them all, and their figures. */
const SOME: readonly AttackName[] = [
  'one socket, presses',
  'one socket, empty frames',
  'twenty sockets at 190, presses',
  'a page, readings',
  '280,000 unknown fields',
  'a long record, read',
];

test.each(SOME)('under %s the run of another loses no reading, and its answers come', async (name) => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const endAttack = await beginAttack(name, program.url);
  onTestFinished(endAttack);
  const { refused, countsMs, pressesMs } = await honestRun(program.url, FOR_MS);
  // That it is never lost is asked by the bench: a busy machine alone can silence a run for half a second.
  expect(refused.filter((code) => code !== 'not-feeding')).toEqual([]);
  expect(Math.max(median(countsMs), median(pressesMs))).toBeLessThan(ENDLESS_MS);
});

/** Without fair turns half of the answers took longer than this, or never came. */
const ENDLESS_MS = 1500;
const median = (timesMs: readonly number[]): number =>
  timesMs.toSorted((a, b) => a - b)[Math.floor(timesMs.length / 2)] ?? Number.POSITIVE_INFINITY;
