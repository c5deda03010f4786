/**
 * The package `say`, for a machine that has a voice but nothing that plays a file. It hands the text to festival's Scheme on Linux
 * and to the arguments of `say` on macOS, so it is given nothing but words of the program's own list. Its `stop()` signals a process
 * that it only guesses at, and it dies of a program that is missing: neither is left to it here.
 */
import { type ChildProcess, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import say from 'say';
import { numberWords } from '../../server/core/words/numberWords.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import { findProgram } from '../findProgram.ts';
import { OVERRUN_MS, type Player, type Playing } from './player.ts';

/** What `say` starts; on Windows there is always a player for files. */
const PROGRAM: Readonly<Partial<Record<NodeJS.Platform, string>>> = { linux: 'festival', darwin: 'say' };
const WORD_ENDS = /[ ,-]+/;
/** Every word of the program's own phrases, and of the numbers from 0 to 99 in quarters. */
const VOCABULARY: ReadonlySet<string> = new Set(
  [
    'mark',
    ...Object.values(phrases),
    ...(['natural', 'digits', 'two digits'] as const).flatMap((form) =>
      Array.from({ length: 400 }, (_, quarters) => numberWords(quarters / 4, form, 'en')),
    ),
  ].flatMap((text) => text.split(WORD_ENDS)),
);
const LETTERS = /^[a-z][a-z ,-]*$/;
/** About a second passes before festival's first sound. */
const SLOW_START_MS = 3000;

/** Words of the program's own, in small letters, between spaces, commas and hyphens: nothing else reaches the machine's voice. */
export const isInVocabulary = (text: string): boolean =>
  text.length <= 160 &&
  LETTERS.test(text) &&
  text.split(WORD_ENDS).every((word) => word === '' || VOCABULARY.has(word));

/** Undefined where the machine has no voice for it. */
export function findSayPlayer(platform = process.platform, path = process.env.PATH): Player | undefined {
  const program = PROGRAM[platform];
  if (program === undefined || findProgram(program, path) === undefined) return undefined;
  return { name: program, play: ({ text, durationMs }) => speak(program, text, durationMs) };
}

function speak(program: string, text: string, durationMs: number): Playing {
  if (!isInVocabulary(text)) return refused(`"${text}" holds a word that ${program} is not given`);
  let why: string | null = null;
  // The machine's usual voice and pace: both would be code to festival.
  say.speak(text, undefined, undefined, (error: unknown) => {
    if (error) why ??= String(error instanceof Error ? error.message : error).split('\n')[0] ?? 'it failed';
  });
  const { child } = say as unknown as { readonly child: ChildProcess | null };
  if (child === null) return refused(`${program} was not started`);
  // Also what it says when nobody listens any more: an error without a listener would take the server down.
  child.stdin?.on('error', () => {});
  const isOver = (): boolean => child.exitCode !== null || child.signalCode !== null;
  const stop = (reason: string): void => {
    if (isOver() || child.pid === undefined) return;
    why = reason;
    // The sound is made by a grandchild, which would play on.
    const all = [...descendants(child.pid), child.pid];
    for (const pid of all) silence(pid);
  };
  const timer = setTimeout(() => stop('took too long'), durationMs + SLOW_START_MS + OVERRUN_MS);
  const ended = new Promise<string | null>((settle) => {
    child.once('error', (error) => settle(error.message));
    child.once('exit', (code) => settle(why ?? (code === 0 ? null : `${program} ended with ${code}`)));
  }).finally(() => clearTimeout(timer));
  return { ended, stop: () => stop('stopped') };
}

const refused = (why: string): Playing => ({ ended: Promise.resolve(why), stop: () => {} });

function silence(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL');
  } catch {
    // It has ended by itself.
  }
}

/** Of a process that we have started ourselves, the innermost first. */
function descendants(pid: number): readonly number[] {
  return childrenOf(pid).flatMap((child) => [...descendants(child), child]);
}

function childrenOf(pid: number): readonly number[] {
  try {
    return numbersIn(readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8'));
  } catch {
    return process.platform === 'darwin' ? numbersIn(spawnSync('/usr/bin/pgrep', ['-P', String(pid)]).stdout) : [];
  }
}
const numbersIn = (text: string | Buffer | null): readonly number[] =>
  String(text ?? '')
    .split(/\s+/)
    .filter((word) => /^\d+$/.test(word))
    .map(Number);
