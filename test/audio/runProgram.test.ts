import { expect, test } from 'vitest';
import { runProgram } from '../../audio/runProgram.ts';

const why = (script: string): Promise<string | null> =>
  runProgram({ path: '/bin/sh', args: ['-c', script], timeoutMs: 10_000 }).ended;

test('what a failed program complains of is heard, though it comes after its end', async () => {
  expect(await why('(sleep 0.05; echo no such device >&2) & exit 1')).toBe('no such device');
});

test('one that leaves something behind which says nothing is not waited for', async () => {
  expect(await why('sleep 3 & exit 4')).toBe('ended with 4');
});

test('one that ends well has nothing to tell', async () => {
  expect(await why('echo a warning >&2')).toBe(null);
});
