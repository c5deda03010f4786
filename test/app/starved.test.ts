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

test.each(SOME)('under %s the run of another loses no reading and is never lost', async (name) => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const endAttack = await beginAttack(name, program.url);
  onTestFinished(endAttack);
  const { refused, wasLost, countsMs, pressesMs } = await honestRun(program.url, FOR_MS);
  expect({ refused, wasLost }).toEqual({ refused: [], wasLost: false });
  expect(Math.min(countsMs.length, pressesMs.length)).toBeGreaterThan(0);
});
