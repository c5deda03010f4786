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
import type { Language } from '../../server/core/words/voiceChoice.ts';
import { findProgram } from '../findProgram.ts';
import { SAMPLE_RATE_HZ } from '../pcm/format.ts';
import type { Studio } from '../recorded/studio.ts';
import { type ProgramAsk, runProgram } from '../runProgram.ts';
import { isSpeakable, VOICE_NAMES } from '../voice/settings.ts';

export interface SystemVoice {
  /** The program. */
  readonly engine: string;
  readonly languages: readonly Language[];
  /** Finished samples at 22,050 Hz. Rejects, in words, where the program fails or takes too long. */
  speak(text: string, language: Language): Promise<Int16Array>;
}

interface VoiceProgram {
  readonly on: NodeJS.Platform;
  readonly name: string;
  /** Where the machine's usual voice is taken, no more is known of it than that English numbers will do. */
  readonly languages: readonly Language[];
  readonly order: (text: string, file: string, language: Language) => Pick<ProgramAsk, 'args' | 'input'>;
}
const PROGRAMS: readonly VoiceProgram[] = [
  {
    on: 'darwin',
    name: 'say',
    languages: ['en'],
    order: (text, file) => ({
      args: ['-o', file, '--file-format=WAVE', `--data-format=LEI16@${SAMPLE_RATE_HZ}`, text],
    }),
  },
  {
    on: 'linux',
    name: 'espeak-ng',
    languages: ['en', 'de'],
    order: (text, file, language) => ({ args: ['-v', VOICE_NAMES[language], '-w', file, '--', text] }),
  },
  {
    on: 'linux',
    name: 'text2wave',
    languages: ['en'],
    // It reads plain text, not Scheme.
    order: (text, file) => ({ args: ['-o', file], input: `${text}\n` }),
  },
];
const PATIENCE_MS = 15_000;

/** Undefined where the machine has none that can be used safely. */
export function findSystemVoice(
  studio: Studio,
  platform = process.platform,
  path = process.env.PATH,
): SystemVoice | undefined {
  for (const program of PROGRAMS.filter(({ on }) => on === platform)) {
    const found = findProgram(program.name, path);
    if (found === undefined) continue;
    const { name: engine, languages } = program;
    return { engine, languages, speak: (text, language) => speakBy(found, program, studio, { text, language }) };
  }
  return undefined;
}

async function speakBy(
  path: string,
  { name, order }: VoiceProgram,
  studio: Studio,
  { text, language }: { readonly text: string; readonly language: Language },
): Promise<Int16Array> {
  if (!isSpeakable(text, language))
    throw new RangeError(`not a text to be spoken: ${JSON.stringify(text.slice(0, 80))}`);
  const folder = await mkdtemp(join(tmpdir(), 'by-the-mark-'));
  try {
    const file = join(folder, `${randomUUID()}.wav`);
    const why = await runProgram({ path, ...order(text, file, language), timeoutMs: PATIENCE_MS }).ended;
    if (why !== null) throw new Error(`the system's voice (${name}) failed at ${JSON.stringify(text)}: ${why}`);
    const samples = await studio.finish(await readFile(file));
    if (samples.length === 0) throw new Error(`the system's voice (${name}) kept silent at ${JSON.stringify(text)}`);
    return samples;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
