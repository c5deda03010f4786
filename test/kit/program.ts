import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { bundledProgram } from './programBundle.ts';
import { keepClips, lendClips } from './spokenClips.ts';

export const DOOR = fileURLToPath(new URL('../../server/door.mjs', import.meta.url));

/** The program itself, as a user starts it: a process of its own on a free port. */
export interface Program {
  readonly url: string;
  readonly child: ChildProcess;
  /** Time from the start to the line `ready`. */
  readonly readyMs: number;
  /** SIGTERM by default; settles when the process is gone. */
  end(signal?: NodeJS.Signals): Promise<void>;
}

/**
 * Starts `by-the-mark serve` and settles at `ready`; rejects with what it printed if it ends before. Through `door`, the bin, where
 * a test says so; otherwise from the bundle, which is sooner there.
 */
export async function startProgram(dataDir: string, args: readonly string[] = [], door?: string): Promise<Program> {
  lendClips(dataDir);
  const program = door ?? (await bundledProgram());
  const startedMs = performance.now();
  const child = spawn(process.execPath, [program, 'serve', '--port', '0', '--data', dataDir, ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let printed = '';
  child.stderr.on('data', (text) => {
    printed += String(text);
  });
  const gone = once(child, 'exit');
  const url = await new Promise<string>((resolve, reject) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      printed += `${line}\n`;
      const found = /^ready (\S+)$/.exec(line)?.[1];
      if (found !== undefined) resolve(found);
    });
    void gone.then(([code]) => reject(new Error(`the program ended with ${code} before it was ready:\n${printed}`)));
  });
  return {
    url,
    child,
    readyMs: performance.now() - startedMs,
    async end(signal = 'SIGTERM') {
      child.kill(signal);
      await gone;
      keepClips(dataDir);
    },
  };
}
