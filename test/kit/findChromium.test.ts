import { chmodSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { expect, test } from 'vitest';
import { findChromium } from './findChromium.mjs';
import { freeDataDir } from './freeDataDir.ts';

/** A folder with programs of these names in it. */
function folderWith(...names: readonly string[]): string {
  const dir = freeDataDir();
  for (const name of names) {
    writeFileSync(join(dir, name), '#!/bin/sh\n');
    chmodSync(join(dir, name), 0o755);
  }
  return dir;
}

test('a browser of any make is found, wherever the path leads to it', () => {
  const [first, second] = [folderWith('another'), folderWith('microsoft-edge')];
  const PATH = [first, second].join(delimiter);
  expect(findChromium({ PATH }, 'linux')).toBe(join(second, 'microsoft-edge'));
  expect(findChromium({ PATH: first }, 'linux')).toBeUndefined();
  expect(findChromium({}, 'linux')).toBeUndefined();
});

test('the one that is named is taken, and no other in its place where it is not there', () => {
  const PATH = folderWith('chromium', 'mine');
  expect(findChromium({ PATH, CHROMIUM: join(PATH, 'mine') }, 'linux')).toBe(join(PATH, 'mine'));
  expect(findChromium({ PATH, CHROMIUM: join(PATH, 'gone') }, 'linux')).toBeUndefined();
});
