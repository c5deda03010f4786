import { type ChildProcess, spawn } from 'node:child_process';

export interface ProgramAsk {
  /** Absolute. */
  readonly path: string;
  /** As they are: no shell ever sees them. */
  readonly args: readonly string[];
  /** What it reads; nothing where it is left out. */
  readonly input?: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly timeoutMs: number;
}

interface ProgramRun {
  /** Null when it ended well; otherwise why not, in a line. Never rejects. */
  readonly ended: Promise<string | null>;
  /** Kills it, and what it has started, at once; does nothing to one that has ended. */
  stop(): void;
}

/** So long at most what a failed program says is waited for once it has ended. */
const LAST_WORDS_MS = 250;
const TOLD_CHARS = 160;
const READ_CHARS = 8000;

/** Starts a program without a shell. */
export function runProgram({ path, args, input, env = {}, timeoutMs }: ProgramAsk): ProgramRun {
  const isGroup = process.platform !== 'win32';
  const child = spawn(path, args, {
    shell: false,
    windowsHide: true,
    // A group of its own, so that a stop reaches what a script has started too.
    detached: isGroup,
    stdio: [input === undefined ? 'ignore' : 'pipe', 'ignore', 'pipe'],
    env: { ...process.env, ...env },
  });
  // One that reads nothing closes its end: that is its own affair.
  child.stdin?.on('error', () => {});
  child.stdin?.end(input);

  let why: string | null = null;
  const stop = (reason: string): void => {
    if (child.exitCode !== null || child.signalCode !== null || child.pid === undefined) return;
    why ??= reason;
    kill(child, child.pid, isGroup);
  };
  const timer = setTimeout(() => stop(`took longer than ${Math.round(timeoutMs / 1000)} s`), timeoutMs);
  const told = tellingOf(child);
  const ended = new Promise<string | null>((settle) => {
    child.once('error', (error) => settle(error.message));
    child.once('exit', (code, signal) => {
      const end = (): void => settle(code === 0 ? null : (why ?? told() ?? `ended with ${code ?? signal}`));
      if (code === 0 || why !== null) return end();
      // What it complained of may be read only after its end, and something that it has started may keep the line open.
      child.once('close', end);
      setTimeout(end, LAST_WORDS_MS);
    });
  }).finally(() => clearTimeout(timer));
  return { ended, stop: () => stop('stopped') };
}

function kill(child: ChildProcess, pid: number, isGroup: boolean): void {
  try {
    if (isGroup) process.kill(-pid, 'SIGKILL');
    else child.kill('SIGKILL');
  } catch {
    // It ended by itself just now.
  }
}

/** The last line that it complains of: what comes before is how it came about. */
function tellingOf(child: ChildProcess): () => string | undefined {
  let text = '';
  child.stderr?.on('data', (part: Buffer) => {
    if (text.length < READ_CHARS) text += String(part);
  });
  return () =>
    text
      .split('\n')
      .map((line) => line.replace(/[^\P{C}]/gu, ' ').trim())
      .findLast((line) => line !== '')
      ?.slice(0, TOLD_CHARS);
}
