/** A reader of codes that is not of the library that writes them. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import type { Picture } from './picture.ts';

const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
let isReady = false;

/** The texts of the QR codes in a picture; none where there is none or it cannot be read. */
export async function decode({ width, height, grey }: Picture): Promise<readonly string[]> {
  if (!isReady) {
    const { buffer } = new Uint8Array(await readFile(wasm));
    await prepareZXingModule({ overrides: { wasmBinary: buffer }, fireImmediately: true });
    isReady = true;
  }
  const data = new Uint8ClampedArray(4 * width * height);
  for (const [index, dot] of grey.entries()) data.set([dot, dot, dot, 255], 4 * index);
  const found = await readBarcodes({ data, width, height, colorSpace: 'srgb' } as ImageData, {
    formats: ['QRCode'],
    tryHarder: true,
  });
  return found.filter(({ isValid }) => isValid).map(({ text }) => text);
}
