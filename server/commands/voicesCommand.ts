import { listVoices } from '../../audio/voicesHere.ts';
import type { VoiceHere } from '../wire/kept/voices.ts';
import { dataDirOf } from './door/dataDir.ts';
import type { Options } from './door/options.ts';
import type { Terminal } from './door/terminal.ts';

/** `voices`: one line each, the one that speaks where none is asked for first. */
export async function voices(options: Options, { out }: Terminal): Promise<void> {
  for (const voice of await listVoices(dataDirOf(options))) out.write(`${lineOf(voice)}\n`);
}

function lineOf({ name, kind, language, engine, sampleRateHz, phrases }: VoiceHere): string {
  if (kind === 'recorded') return `${name}  ${engine}, ${phrases === 1 ? '1 phrase' : `${phrases} phrases`}`;
  return `${name}  language ${language}, by ${engine}, ${sampleRateHz} samples a second`;
}
