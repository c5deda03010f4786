import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { openChromium } from './chromium.ts';
import { type Program, startProgram } from './program.ts';

/** One browser and one program for all tests of a file: the words of a run are spoken once. */
export function browserHouse(): { readonly browser: Browser; readonly program: Program } {
  const dataDir = mkdtempSync(join(tmpdir(), 'by-the-mark-'));
  let house: { readonly browser: Browser; readonly program: Program } | undefined;
  const opened = () => {
    if (house === undefined) throw new Error('the browser and the program are there within a test only');
    return house;
  };
  beforeAll(async () => {
    const [browser, program] = await Promise.all([openChromium(), startProgram(dataDir)]);
    house = { browser, program };
  });
  afterAll(async () => {
    await Promise.all([house?.browser.close(), house?.program.end('SIGKILL')]);
    rmSync(dataDir, { recursive: true, force: true });
  });
  return {
    get browser() {
      return opened().browser;
    },
    get program() {
      return opened().program;
    },
  };
}
