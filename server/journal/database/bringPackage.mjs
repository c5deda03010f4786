// Run once after an install (npm run prepare): a Node that has no SQLite of its own gets the package's compiled part, from what was
// compiled here before, or compiled now. A newer Node compiles nothing.
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';

const require = createRequire(import.meta.url);

/** In a process of its own, for a broken part may end the process that loads it. */
function isThere() {
  const script = "new (require('better-sqlite3'))(':memory:').close()";
  return spawnSync(process.execPath, ['-e', script], { cwd: import.meta.dirname, stdio: 'ignore' }).status === 0;
}

function bring() {
  const manifest = require.resolve('better-sqlite3/package.json');
  const { version } = JSON.parse(readFileSync(manifest, 'utf8'));
  const part = join(dirname(manifest), 'build/Release/better_sqlite3.node');
  const { versions, platform, arch } = process;
  const kept = join(
    homedir(),
    '.cache/by-the-mark',
    `better-sqlite3-${version}-${versions.modules}-${platform}-${arch}.node`,
  );
  if (existsSync(kept)) {
    mkdirSync(dirname(part), { recursive: true });
    copyFileSync(kept, part);
    if (isThere()) return true;
  }
  console.log('Compiling SQLite, once for this version of Node: a minute or three.');
  spawnSync('npm', ['rebuild', 'better-sqlite3', '--dangerously-allow-all-scripts'], {
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (!isThere()) return false;
  try {
    mkdirSync(dirname(kept), { recursive: true });
    copyFileSync(part, kept);
  } catch {
    // Then it is compiled again next time.
  }
  return true;
}

const hasOwn = process.getBuiltinModule?.('node:sqlite') !== undefined;
if (!hasOwn && !isThere() && !bring()) {
  console.error(
    'SQLite could not be compiled (it needs python3, make and g++), and this Node has none. Node 22.13 and later have their own.',
  );
  process.exitCode = 1;
}
