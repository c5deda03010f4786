/**
 * Puts small faults into the rules of the trade, one at a time, and counts those that a test notices. The files are changed in place
 * and put back; ended early, `git checkout server` puts back the one that was under way.
 */
import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { draws } from '../../../server/core/numeric/draws.ts';
import { faultsIn, type SmallFault } from './faultsIn.ts';

const FOLDERS = ['run', 'pace', 'routine', 'rip', 'track', 'hull', 'frame']
  .map((name) => `server/core/${name}`)
  .concat('server/wire');
const TOP = join(import.meta.dirname, '../../..');
const LONGEST_MS = 300_000;

const [number = '150', seed = '1', only = ''] = process.argv.slice(2);

const files = FOLDERS.filter((folder) => folder.includes(only)).flatMap((folder) =>
  readdirSync(join(TOP, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name}`)
    .filter((path) => path.endsWith('.ts') && statSync(join(TOP, path)).isFile()),
);
const all = files.toSorted().flatMap((path) => faultsIn(path, readFileSync(join(TOP, path), 'utf8')));
const drawn = drawSome(all, Number(number), draws(Number(seed)).even);

console.log(`${drawn.length} of ${all.length} small faults in ${files.length} files, seed ${seed}`);
const unnoticed: SmallFault[] = [];
for (const [index, fault] of drawn.entries()) {
  const isNoticed = await tryFault(fault);
  if (!isNoticed) unnoticed.push(fault);
  console.log(`${index + 1} ${isNoticed ? 'noticed    ' : 'NOT NOTICED'} ${said(fault)}`);
}
const share = (100 * (drawn.length - unnoticed.length)) / drawn.length;
console.log(`\n${drawn.length - unnoticed.length} of ${drawn.length} noticed (${share.toFixed(0)} %)`);
for (const fault of unnoticed) console.log(`  ${said(fault)}`);

function drawSome(from: readonly SmallFault[], count: number, even: () => number): readonly SmallFault[] {
  const left = [...from];
  const taken: SmallFault[] = [];
  while (taken.length < count && left.length > 0) taken.push(...left.splice(Math.floor(even() * left.length), 1));
  return taken;
}

function said({ path, line, was, becomes }: SmallFault): string {
  const short = (text: string): string => text.replace(/\s+/g, ' ').slice(0, 60);
  return `${path}:${line}: ${short(was)} -> ${short(becomes)}`;
}

/** The tests of the file's own folder first: they are quick and notice most. Then all that lead to it. */
async function tryFault({ path, from, to, becomes }: SmallFault): Promise<boolean> {
  const file = join(TOP, path);
  const sound = readFileSync(file, 'utf8');
  writeFileSync(file, sound.slice(0, from) + becomes + sound.slice(to));
  try {
    const near = path.replace(/^server/, 'test').replace(/\/[^/]+$/, '/');
    return (await fails(['run', near, '--passWithNoTests'])) || (await fails(['related', file, '--run']));
  } finally {
    writeFileSync(file, sound);
  }
}

function fails(args: readonly string[]): Promise<boolean> {
  const vitest = join(TOP, 'node_modules/vitest/vitest.mjs');
  const options = [
    '--config',
    'test/vitest.config.ts',
    '--project',
    'pure',
    '--project',
    'at leisure',
    '--bail',
    '1',
    '--reporter',
    'dot',
  ];
  const child = spawn(process.execPath, [vitest, ...args, ...options], {
    cwd: TOP,
    stdio: 'ignore',
    env: { ...process.env, CI: 'true' },
    // A fault that never ends is noticed too.
    timeout: LONGEST_MS,
    killSignal: 'SIGKILL',
  });
  return new Promise((resolve) => child.on('exit', (code) => resolve(code !== 0)));
}
