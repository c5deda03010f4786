import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** An empty folder for one test, taken away when the test is over. */
export function freeDataDir(): string {
  const dir = mkdtempSync(join(tmpdir(), 'by-the-mark-'));
  onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
  return dir;
}
