import { listVoices } from '../../audio/voices.ts';
import type { VoiceHere } from '../wire/message/voices.ts';
import { dataDirOf } from './dataDir.ts';
import type { Options } from './options.ts';
import type { Terminal } from './terminal.ts';

/** `voices`: one line each, the one that speaks where none is asked for first. */
export async function voices(options: Options, { out }: Terminal): Promise<void> {
  for (const voice of await listVoices(dataDirOf(options))) out.write(`${lineOf(voice)}\n`);
}

function lineOf({ name, kind, language, engine, sampleRateHz, phrases }: VoiceHere): string {
  if (kind === 'recorded') return `${name}  ${engine}, ${phrases === 1 ? '1 phrase' : `${phrases} phrases`}`;
  return `${name}  language ${language}, by ${engine}, ${sampleRateHz} samples a second`;
}
