/** A program that stands in for a player or a voice: real, executable, found on PATH; it writes down what it was given. */
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

export interface Given {
  readonly pid: number;
  readonly args: readonly string[];
  readonly input: string;
}
/** What it does once it has written down what it was given. `sounds`: goes on, by a process of its own, until it is killed. */
export type Manner = 'ends' | 'sounds' | 'fails' | 'copies';

export interface StandIn {
  /** The folder that it lies in. */
  readonly path: string;
  behave(manner: Manner): void;
  /** Every time that it was started, in order. */
  given(): readonly Given[];
  /** Processes of it, and what they have started, that are still there. */
  alive(): readonly number[];
}

/** `copies`: what it says into the file that comes after `-w` or `-o`. */
export function standIn(name: string, copies?: string): StandIn {
  const path = mkdtempSync(join(tmpdir(), 'stand-in-'));
  const log = join(path, 'log');
  mkdirSync(log);
  onTestFinished(() => rmSync(path, { recursive: true, force: true }));
  const manner = join(path, 'manner');
  // Whole before it is seen: written beside and then renamed.
  writeFileSync(
    join(path, name),
    `#!/bin/sh
n=$(date +%s%N)-$$
for each; do printf '%s\\0' "$each"; done > '${log}'/$n.args
cat > '${log}'/$n.input
read how < '${manner}'
case $how in
sounds) sleep 60 & echo $! > '${log}'/$n.child; mv '${log}'/$n.input '${log}'/$n.given; wait ;;
fails) mv '${log}'/$n.input '${log}'/$n.given; echo 'audio open error: No such file or directory' >&2; exit 1 ;;
copies) while [ $# -gt 1 ]; do case $1 in -w|-o) cp '${copies}' "$2" ;; esac; shift; done; mv '${log}'/$n.input '${log}'/$n.given ;;
*) mv '${log}'/$n.input '${log}'/$n.given ;;
esac
`,
  );
  chmodSync(join(path, name), 0o755);
  const behave = (how: Manner): void => writeFileSync(manner, `${how}\n`);
  behave('ends');

  const read = (file: string): string => (existsSync(join(log, file)) ? readFileSync(join(log, file), 'utf8') : '');
  const given = (): readonly Given[] =>
    readdirSync(log)
      .filter((file) => file.endsWith('.given'))
      .sort()
      .map((file) => {
        const n = file.slice(0, -'.given'.length);
        return {
          pid: Number(n.split('-')[1]),
          args: read(`${n}.args`).split('\0').slice(0, -1),
          input: read(file),
        };
      });
  return {
    path,
    behave,
    given,
    alive: () =>
      [
        ...given().map(({ pid }) => pid),
        ...readdirSync(log)
          .filter((file) => file.endsWith('.child'))
          .map((file) => Number(read(file))),
      ].filter(isAlive),
  };
}

/** A process that has ended but was not yet asked for by its parent is not alive. */
function isAlive(pid: number): boolean {
  try {
    return !/^State:\s+Z/m.test(readFileSync(`/proc/${pid}/status`, 'utf8'));
  } catch {
    return false;
  }
}

/** Puts folders before the rest of PATH for one test, or in the place of all of it. */
export function onPath(...folders: readonly string[]): void {
  const before = process.env.PATH;
  process.env.PATH = [...folders, '/bin', '/usr/bin'].join(':');
  onTestFinished(() => {
    process.env.PATH = before;
  });
}
