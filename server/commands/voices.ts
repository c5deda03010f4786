import { listVoices } from '../../audio/voices.ts';
import type { Terminal } from './terminal.ts';

/** `voices`: one line each. */
export async function voices({ out }: Terminal): Promise<void> {
  for (const { name, language, engine, sampleRateHz } of await listVoices())
    out.write(`${name}  language ${language}, by ${engine}, ${sampleRateHz} samples a second\n`);
}
