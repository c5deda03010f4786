import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import load from '@echogarden/espeak-ng-emscripten';
import { fromInt16, SAMPLE_RATE_HZ } from '../pcm/format.ts';

const DATA = createRequire(import.meta.url).resolve('@echogarden/espeak-ng-emscripten/espeak-ng.data');

/** Speaks a text: samples of -1..1 at 22,050 Hz, as they come from the voice. */
export type Mouth = (text: string) => Float64Array;

/** One of the embedded voices. Rejects where the package has no voice of that name, or it speaks at another rate. */
export async function loadEmbedded({
  name,
  wordsPerMin,
}: {
  readonly name: string;
  readonly wordsPerMin: number;
}): Promise<Mouth> {
  // Handed over, because its own reading hangs where the path has a `#` or the file is gone.
  const { buffer } = await readFile(DATA);
  const { eSpeakNGWorker } = await load({ getPreloadedPackage: () => buffer });
  const speaker = new eSpeakNGWorker();
  if (speaker.set_voice(name) !== 0) throw new Error(`the embedded voice ${name} is not in its package`);
  speaker.set_rate(wordsPerMin);
  const rate = speaker.get_samplerate();
  if (rate !== SAMPLE_RATE_HZ)
    throw new Error(`the voice speaks at ${rate} samples a second, wanted ${SAMPLE_RATE_HZ}`);
  return (text) => {
    const chunks: Int16Array[] = [];
    speaker.synthesize(text, (chunk) => {
      if (chunk.length > 0) chunks.push(chunk);
      return false;
    });
    return fromInt16(joined(chunks));
  };
}

function joined(chunks: readonly Int16Array[]): Int16Array {
  const whole = new Int16Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
