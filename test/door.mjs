// npm test [-- what vitest takes]: looks first for what the tests need beyond the packages of npm, brings it where that can be done,
// or names all that is missing before any test runs.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { findChromium } from './kit/findChromium.mjs';

const TOP = join(import.meta.dirname, '..');
const run = (program, args, stdio = 'inherit') =>
  spawnSync(program, args, { cwd: TOP, stdio, env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } }).status ===
  0;

const isRoot = process.getuid?.() === 0;
/** How a command is run that only root may run; undefined where nobody lets us. */
const asRoot = isRoot ? [] : run('sudo', ['-n', 'true'], 'ignore') ? ['sudo', '-n'] : undefined;

function installOnDebian(name) {
  if (asRoot === undefined || !existsSync('/etc/debian_version')) return;
  console.log(`Installing ${name}, which the tests need.`);
  const apt = (...args) => {
    const [program, ...rest] = [...asRoot, 'apt-get', ...args];
    return run(program, rest);
  };
  void (apt('update', '-qq') && apt('install', '-y', '--no-install-recommends', name));
}

if (findChromium() === undefined && process.env.CHROMIUM === undefined) installOnDebian('chromium');

const missing = [
  ...(findChromium() === undefined ? ["a browser of Chromium's kind (install chromium, or name one in CHROMIUM)"] : []),
  ...(asRoot === undefined && process.platform === 'linux'
    ? ['leave to mount a disk that two of them fill (root, or sudo)']
    : []),
];
if (missing.length > 0) {
  console.error(`The tests need ${missing.join(', and ')}; nothing was tested.`);
  process.exit(1);
}

const vitest = join(TOP, 'node_modules/vitest/vitest.mjs');
const tested = spawnSync(
  process.execPath,
  [vitest, 'run', '--config', 'test/vitest.config.ts', ...process.argv.slice(2)],
  {
    cwd: TOP,
    stdio: 'inherit',
  },
);
process.exitCode = tested.status ?? 1;
