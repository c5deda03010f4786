import type { BrowserContext, Page } from 'playwright-core';
import { build } from 'vite';
import { writeWav } from '../../audio/wav.ts';
import type * as sound from './soundOnPage.ts';

/** What the page has of the program's own code. */
export type ByTheMark = typeof sound;

/** The pages' own sound code, bundled as vite bundles it, in one script that makes `byTheMark`. */
export async function bundleSound(): Promise<string> {
  const entry = new URL('soundOnPage.ts', import.meta.url).pathname;
  const made = await build({
    configFile: false,
    logLevel: 'error',
    build: { write: false, minify: false, target: 'es2022', lib: { entry, name: 'byTheMark', formats: ['iife'] } },
  });
  const [output] = Array.isArray(made) ? made : [made];
  if (output === undefined || !('output' in output)) throw new Error('vite gave no output');
  return output.output[0].code;
}

/** The clip that is served: a steady tone from its first sample to its last, so that both ends can be seen. */
export const CLIP = { text: 'twelve', url: '/clip.wav', durationMs: 1000 } as const;
const RATE_HZ = 22_050;
const clip = (): Buffer =>
  Buffer.from(
    writeWav({
      sampleRateHz: RATE_HZ,
      samples: Int16Array.from({ length: RATE_HZ }, (_, i) => 16_384 * Math.cos((2 * Math.PI * 700 * i) / RATE_HZ)),
    }),
  );

/** A bare page at a trusted address with the pages' own sound code in it. */
export async function openSoundPage(context: BrowserContext, bundle: string): Promise<Page> {
  await context.route('http://localhost/', (route) =>
    route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>Sound</title>' }),
  );
  await context.route('http://localhost/clip.wav', (route) =>
    route.fulfill({ contentType: 'audio/wav', body: clip() }),
  );
  const page = await context.newPage();
  await page.goto('http://localhost/');
  await page.addScriptTag({ content: bundle });
  return page;
}
