/**
 * Puts small faults into the rules of the trade, one at a time, and counts those that a test notices. The files are changed in place
 * and put back; ended early, `git checkout server` puts back the one that was under way.
 */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { draws } from '../../../server/core/numeric/draws.ts';
import { faultsIn, type SmallFault } from './faultsIn.ts';

const FOLDERS = ['run', 'pace', 'routine', 'rip', 'track', 'hull', 'frame']
  .map((name) => `server/core/${name}`)
  .concat('server/wire');
const TOP = join(import.meta.dirname, '../../..');
/** Longer than the tests take on a busy machine: only what never ends is ended. */
const LONGEST_MS = 900_000;

const NOTICED = 'noticed    ';
/** Noticed too, for who runs the tests waits in vain; told apart, for a machine can be slower than any bound. */
const NEVER_ENDED = 'never ended';
const NOT_NOTICED = 'NOT NOTICED';
type Verdict = typeof NOTICED | typeof NEVER_ENDED | typeof NOT_NOTICED;

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
  const verdict = await tryFault(fault);
  if (verdict === NOT_NOTICED) unnoticed.push(fault);
  console.log(`${index + 1} ${verdict} ${said(fault)}`);
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

/** The nearest tests first: they are quick and notice most. Then all that lead to the file. */
async function tryFault({ path, from, to, becomes }: SmallFault): Promise<Verdict> {
  const file = join(TOP, path);
  const sound = readFileSync(file, 'utf8');
  writeFileSync(file, sound.slice(0, from) + becomes + sound.slice(to));
  try {
    for (const args of nearestFirst(path)) {
      const verdict = await runTests(args);
      if (verdict !== NOT_NOTICED) return verdict;
    }
    return NOT_NOTICED;
  } finally {
    writeFileSync(file, sound);
  }
}

function nearestFirst(path: string): readonly (readonly string[])[] {
  const ofItsName = path.replace(/^server/, 'test').replace(/\.ts$/, '.test.ts');
  const folder = ofItsName.replace(/[^/]+$/, '');
  const room = ofItsName.split('/').slice(0, 3).join('/');
  return [
    ...(existsSync(join(TOP, ofItsName)) ? [['run', ofItsName]] : []),
    ...[...new Set([folder, `${room}/`])].map((near) => ['run', near, '--passWithNoTests']),
    ['related', path, '--run', '--passWithNoTests'],
  ];
}

function runTests(args: readonly string[]): Promise<Verdict> {
  const vitest = join(TOP, 'node_modules/vitest/vitest.mjs');
  const projects = ['pure', 'at leisure'].flatMap((name) => ['--project', name]);
  const options = ['--config', 'test/vitest.config.ts', ...projects, '--bail', '1', '--reporter', 'dot'];
  const child = spawn(process.execPath, [vitest, ...args, ...options], {
    cwd: TOP,
    stdio: 'ignore',
    env: { ...process.env, CI: 'true' },
    timeout: LONGEST_MS,
    killSignal: 'SIGKILL',
  });
  return new Promise((resolve) =>
    child.on('exit', (code) => resolve(code === null ? NEVER_ENDED : code === 0 ? NOT_NOTICED : NOTICED)),
  );
}
