/** Programs that play a WAV file and end with it. Each gets the file's name as one argument of its own, or beside its arguments. */
import { findProgram } from '../findProgram.ts';
import { runProgram } from '../runProgram.ts';
import { OVERRUN_MS, type Player } from './player.ts';

interface FileProgram {
  readonly name: string;
  readonly args: (file: string) => readonly string[];
  readonly env?: (file: string) => Readonly<Record<string, string>>;
}

/** PowerShell reads the name from its environment: what stands among its arguments it would take for code. */
const SOUND_PLAYER = '(New-Object System.Media.SoundPlayer $env:BY_THE_MARK_CLIP).PlaySync()';
const PROGRAMS: readonly FileProgram[] = [
  { name: 'paplay', args: (file) => [file] },
  { name: 'aplay', args: (file) => ['-q', file] },
  { name: 'afplay', args: (file) => [file] },
  {
    name: 'powershell.exe',
    args: () => ['-NoProfile', '-NonInteractive', '-Command', SOUND_PLAYER],
    env: (file) => ({ BY_THE_MARK_CLIP: file }),
  },
];

/** Those that this machine has, the likeliest to be heard first. */
export function findFilePlayers(path = process.env.PATH): readonly Player[] {
  return PROGRAMS.flatMap(({ name, args, env }) => {
    const program = findProgram(name, path);
    if (program === undefined) return [];
    const play: Player['play'] = ({ file, durationMs }) =>
      runProgram({
        path: program,
        args: args(file),
        ...(env === undefined ? {} : { env: env(file) }),
        timeoutMs: durationMs + OVERRUN_MS,
      });
    return [{ name, play }];
  });
}
