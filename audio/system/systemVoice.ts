/**
 * The machine's own voice, where a program of it writes what it says into a file: `say` of macOS, espeak-ng, or text2wave of
 * festival. Called directly, in a list of arguments, with a text that holds letters, digits, spaces and `,.'-` only and begins with
 * one of the first two; so that no shell, no Scheme and no option can be made of it. The package `say` is not used here: its
 * `export` knows no Linux, and hands a Windows machine's PowerShell text and file name as code. On Windows there is none.
 */
import { randomUUID } from 'node:crypto';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findProgram } from '../findProgram.ts';
import { SAMPLE_RATE_HZ } from '../pcm/format.ts';
import type { Studio } from '../recorded/studio.ts';
import { type ProgramAsk, runProgram } from '../runProgram.ts';
import { isSpeakable } from '../voice/settings.ts';

export interface SystemVoice {
  /** The program. */
  readonly engine: string;
  /** Finished samples at 22,050 Hz. Rejects, in words, where the program fails or takes too long. */
  speak(text: string): Promise<Int16Array>;
}

type Order = Pick<ProgramAsk, 'args' | 'input'>;
const PROGRAMS: readonly (readonly [NodeJS.Platform, string, (text: string, file: string) => Order])[] = [
  [
    'darwin',
    'say',
    (text, file) => ({ args: ['-o', file, '--file-format=WAVE', `--data-format=LEI16@${SAMPLE_RATE_HZ}`, text] }),
  ],
  ['linux', 'espeak-ng', (text, file) => ({ args: ['-v', 'en-us', '-w', file, '--', text] })],
  // Reads plain text, not Scheme.
  ['linux', 'text2wave', (text, file) => ({ args: ['-o', file], input: `${text}\n` })],
];
const PATIENCE_MS = 15_000;

/** Undefined where the machine has none that can be used safely. */
export function findSystemVoice(
  studio: Studio,
  platform = process.platform,
  path = process.env.PATH,
): SystemVoice | undefined {
  for (const [on, name, order] of PROGRAMS) {
    const program = on === platform ? findProgram(name, path) : undefined;
    if (program !== undefined)
      return { engine: name, speak: (text) => speakBy({ path: program, name, order, studio }, text) };
  }
  return undefined;
}

async function speakBy(
  by: {
    readonly path: string;
    readonly name: string;
    readonly order: (text: string, file: string) => Order;
    readonly studio: Studio;
  },
  text: string,
): Promise<Int16Array> {
  const { path, name, order, studio } = by;
  if (!isSpeakable(text)) throw new RangeError(`not a text to be spoken: ${JSON.stringify(text.slice(0, 80))}`);
  const folder = await mkdtemp(join(tmpdir(), 'by-the-mark-'));
  try {
    const file = join(folder, `${randomUUID()}.wav`);
    const why = await runProgram({ path, ...order(text, file), timeoutMs: PATIENCE_MS }).ended;
    if (why !== null) throw new Error(`the system's voice (${name}) failed at ${JSON.stringify(text)}: ${why}`);
    const samples = await studio.finish(await readFile(file));
    if (samples.length === 0) throw new Error(`the system's voice (${name}) kept silent at ${JSON.stringify(text)}`);
    return samples;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
