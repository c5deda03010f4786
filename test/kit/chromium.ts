import { type Browser, chromium, type Page } from 'playwright-core';
import { findChromium } from './findChromium.mjs';

/** The Chromium that is installed here, headless, without its calls home. Sound may begin without a tap only where `autoplay` says so. */
export function openChromium({ autoplay = true, more = [] as readonly string[] } = {}): Promise<Browser> {
  const executablePath = findChromium();
  if (executablePath === undefined)
    throw new Error('no browser of the kind of Chromium was found: name one in CHROMIUM');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--disable-quic',
      // Several pages stand for several devices: none of them is a hidden tab.
      '--disable-backgrounding-occluded-windows',
      '--disable-renderer-backgrounding',
      ...(autoplay ? ['--autoplay-policy=no-user-gesture-required'] : []),
      ...more,
    ],
  });
}

/** A sound that was given to a page's audio graph. Times are Unix ms, as the page's own clock has them. */
export interface Sounded {
  readonly atMs: number;
  /** When it begins, on the audio clock, and what that clock said when it was asked for. */
  readonly startS: number;
  readonly nowS: number;
  readonly lengthS: number;
  /** Loudest sample: proves that the clip is not silence. */
  readonly peak: number;
  /** Set when it is cut off: on the audio clock. */
  stoppedS?: number;
}

/** Watches a page's audio graph from outside: every buffer that is started or stopped. Must come before the page is opened. */
export async function watchSound(page: Page): Promise<() => Promise<Sounded[]>> {
  await page.addInitScript(() => {
    const sounded: Sounded[] = [];
    Object.assign(window, { sounded });
    const entries = new WeakMap<AudioBufferSourceNode, Sounded>();
    const { start, stop } = AudioBufferSourceNode.prototype;
    AudioBufferSourceNode.prototype.start = function (this: AudioBufferSourceNode, when = 0, ...more: number[]) {
      const entry: Sounded = {
        atMs: performance.timeOrigin + performance.now(),
        startS: Math.max(when, this.context.currentTime),
        nowS: this.context.currentTime,
        lengthS: this.buffer?.duration ?? 0,
        peak: (this.buffer?.getChannelData(0) ?? new Float32Array()).reduce(
          (most, each) => Math.max(most, Math.abs(each)),
          0,
        ),
      };
      sounded.push(entry);
      entries.set(this, entry);
      return start.call(this, when, ...more);
    };
    AudioBufferSourceNode.prototype.stop = function (this: AudioBufferSourceNode, when = 0) {
      const entry = entries.get(this);
      if (entry !== undefined) entry.stoppedS = Math.max(when, this.context.currentTime);
      return stop.call(this, when);
    };
  });
  return () => page.evaluate(() => (window as unknown as { sounded: Sounded[] }).sounded);
}

/** Confirms the sound on a wheel display as its person does. */
export async function confirmSound(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Play the test words' }).click();
  await page.getByRole('button', { name: 'I heard it' }).click();
  await page.getByText('Sound confirmed').waitFor();
  // The page knows it first; a start that overtakes the word of it would rightly be refused.
  await page.waitForFunction(async () => {
    const run = new URL(location.href).searchParams.get('run');
    const view = await (await fetch(`/api/runs/${run}`)).json();
    return view.listeners.every((listener: { hearing: string }) => listener.hearing === 'confirmed');
  });
}
