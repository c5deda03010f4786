/** What the schedule sheet says of a frame from offsets. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { runCli } from '../kit/runCli.ts';
import { linesOf, readPages } from './printed.ts';

const DEMO = fileURLToPath(new URL('../../server/demo/offsets-job.json', import.meta.url));

test('has fairing, chord, hollow and run-off, and nothing of bevels picked up', async () => {
  const out = join(freeDataDir(), 'sheet.pdf');
  const { code, err } = await runCli('sheet', DEMO, '--out', out);
  expect(err).toBe('');
  expect(code).toBe(0);
  const pages = await readPages(readFileSync(out));
  const words = pages
    .map((page) => linesOf(page).join(' '))
    .join(' ')
    .replace(/\s+/g, ' ');
  expect(words).toContain('16 mm of planking is');
  expect(words).toMatch(/Fairing moved \d+ points/);
  expect(words).toContain('the straight cut is');
  expect(words).toContain('a plain stack laid on the planking');
  expect(words).not.toContain('between what was picked up and the fair curve');
});
