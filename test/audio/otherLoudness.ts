/** Another's measurement of loudness (EBU R 128, ITU-R BS.1770): the package ebur128-wasm, libebur128 written anew in Rust. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

interface Meter {
  readonly memory: WebAssembly.Memory;
  /** Lets go of the samples itself. */
  ebur128_integrated_mono(rateHz: number, at: number, length: number): number;
  __wbindgen_malloc(bytes: number): number;
}

/** The package's own way in is for bundlers only. What it would ask the page for, it asks for to report a fault of its own. */
export async function openOtherMeter(): Promise<(samples: Float32Array, rateHz: number) => number> {
  const path = createRequire(import.meta.url).resolve('ebur128-wasm/ebur128_wasm_bg.wasm');
  const program = await WebAssembly.compile(readFileSync(path));
  const fault = (): never => {
    throw new Error('ebur128-wasm met a fault of its own');
  };
  const asked: WebAssembly.Imports = {};
  for (const { module, name } of WebAssembly.Module.imports(program))
    asked[module] = { ...asked[module], [name]: fault };
  const meter = (await WebAssembly.instantiate(program, asked)).exports as unknown as Meter;
  return (samples, rateHz) => {
    const at = meter.__wbindgen_malloc(samples.byteLength);
    new Float32Array(meter.memory.buffer).set(samples, at / Float32Array.BYTES_PER_ELEMENT);
    return meter.ebur128_integrated_mono(rateHz, at, samples.length);
  };
}
