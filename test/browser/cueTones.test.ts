/** The cue tones as Chromium renders them: pitch, rhythm, level, and nothing outside the band. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loudnessLufs } from '../../audio/pcm/loudness.ts';
import { CLIP_LUFS } from '../../audio/pcm/makeClip.ts';
import { CUES, type CueName } from '../../client/kit/hearing/cues.ts';
import { openChromium } from '../kit/chromium.ts';
import { expectClose } from '../kit/close.ts';
import { type ByTheMark, bundleSound, openSoundPage } from '../kit/loudspeakerPage.ts';

const RATE_HZ = 44_100;
const names = Object.keys(CUES) as CueName[];

let browser: Browser;
const rendered = new Map<string, Float64Array>();
const of = (name: string): Float64Array => rendered.get(name) ?? new Float64Array();
beforeAll(async () => {
  const [opened, bundle] = await Promise.all([openChromium(), bundleSound()]);
  browser = opened;
  const page = await openSoundPage(await browser.newContext(), bundle);
  for (const name of names) rendered.set(name, await renderCue(page, name));
  rendered.set('alarm', await renderAlarm(page));
});
afterAll(() => browser.close());

/** Through an offline graph at another rate than the samples', as a device that has its own would. */
async function renderCue(page: Page, name: CueName): Promise<Float64Array> {
  const samples = await page.evaluate(
    async ([cue, rateHz]) => {
      const { byTheMark } = window as unknown as { byTheMark: ByTheMark };
      const graph = new OfflineAudioContext(1, rateHz, rateHz);
      const made = byTheMark.cueSamples(cue, 48_000);
      const buffer = new AudioBuffer({ length: made.length, sampleRate: 48_000 });
      buffer.copyToChannel(made, 0);
      const source = new AudioBufferSourceNode(graph, { buffer });
      source.connect(graph.destination);
      source.start();
      return [...(await graph.startRendering()).getChannelData(0)];
    },
    [name, RATE_HZ] as const,
  );
  return Float64Array.from(samples);
}

async function renderAlarm(page: Page): Promise<Float64Array> {
  const samples = await page.evaluate(async (rateHz) => {
    const { byTheMark } = window as unknown as { byTheMark: ByTheMark };
    const graph = new OfflineAudioContext(1, 2 * rateHz, rateHz);
    // A graph that is suspended at once is one that runs, as the alarm wants it.
    await Promise.all([
      graph.startRendering,
      graph.suspend(0).then(() => {
        Object.defineProperty(graph, 'state', { value: 'running' });
        new byTheMark.AlarmTone(graph, graph.destination).start();
        return graph.resume();
      }),
      graph.startRendering().then((buffer) => Object.assign(window, { alarm: [...buffer.getChannelData(0)] })),
    ]);
    return (window as unknown as { alarm: number[] }).alarm;
  }, RATE_HZ);
  return Float64Array.from(samples);
}

const SLOT_S = 0.01;
/** The loudest sample of each hundredth of a second, against the loudest of all. */
function envelope(samples: Float64Array): number[] {
  const slot = Math.round(SLOT_S * RATE_HZ);
  const loudest = samples.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  return Array.from({ length: Math.floor(samples.length / slot) }, (_, i) =>
    samples.subarray(i * slot, (i + 1) * slot).reduce((most, each) => Math.max(most, Math.abs(each) / loudest), 0),
  );
}

/** From when to when it sounds. */
function bursts(samples: Float64Array): { fromS: number; toS: number }[] {
  const found: { fromS: number; toS: number }[] = [];
  let last = false;
  for (const [i, size] of envelope(samples).entries()) {
    const sounds = size > 0.2;
    const now = found.at(-1);
    if (sounds && !last) found.push({ fromS: i * SLOT_S, toS: (i + 1) * SLOT_S });
    else if (sounds && now !== undefined) now.toS = (i + 1) * SLOT_S;
    last = sounds;
  }
  return found;
}

/** Power at a frequency (Goertzel's algorithm, from memory), by a window that falls to nothing at both ends. */
function powerAt(samples: Float64Array, hz: number): number {
  const turn = 2 * Math.cos((2 * Math.PI * hz) / RATE_HZ);
  let [last, before] = [0, 0];
  for (const sample of samples) [last, before] = [sample + turn * last - before, last];
  return last * last + before * before - turn * last * before;
}

const windowed = (samples: Float64Array): Float64Array =>
  samples.map((sample, i) => sample * Math.sin((Math.PI * i) / samples.length) ** 2);

const between = (samples: Float64Array, fromS: number, toS: number): Float64Array =>
  samples.subarray(Math.round(fromS * RATE_HZ), Math.round(toS * RATE_HZ));

function strongestHz(samples: Float64Array): number {
  let best = { hz: 0, power: 0 };
  const note = windowed(samples);
  for (let hz = 100; hz <= 6000; hz += 5) {
    const power = powerAt(note, hz);
    if (power > best.power) best = { hz, power };
  }
  return best.hz;
}

describe.each(names)('%s', (name) => {
  it('has the rhythm that it is known by', () => {
    const found = bursts(of(name));
    const wanted = CUES[name];
    expect(found).toHaveLength(wanted.length);
    for (const [i, { atS, lengthS }] of wanted.entries()) {
      expectClose(found[i]?.fromS ?? Number.NaN, atS, 0.015, `${name} note ${i} begins, s`);
      expectClose(found[i]?.toS ?? Number.NaN, atS + lengthS, 0.02, `${name} note ${i} ends, s`);
    }
  });

  it('has the pitch of each note', () => {
    for (const { atS, lengthS, hz } of CUES[name])
      expectClose(strongestHz(between(of(name), atS, atS + lengthS)), hz, 6, 'Hz');
  });

  it('has all but a thousandth of its power within 200 to 5000 Hz', () => {
    for (const { atS, lengthS } of CUES[name]) {
      const note = windowed(between(of(name), atS, atS + lengthS));
      let inside = 0;
      let outside = 0;
      for (let hz = 10; hz < 12_000; hz += 20) {
        const power = powerAt(note, hz);
        if (hz >= 200 && hz <= 5000) inside += power;
        else outside += power;
      }
      expect(outside / (inside + outside)).toBeLessThan(0.001);
    }
  });

  it('is as loud as the words, within 2 LU, and is not cut at full scale', () => {
    // While it sounds: the gaps of a rhythm are not loudness.
    const sounding = CUES[name].flatMap(({ atS, lengthS }) => [...between(of(name), atS, atS + lengthS)]);
    const twice = Float64Array.from([...sounding, ...sounding, ...sounding, ...sounding]);
    expectClose(loudnessLufs(twice, RATE_HZ), CLIP_LUFS, 2, 'LUFS');
    expect(of(name).reduce((most, each) => Math.max(most, Math.abs(each)), 0)).toBeLessThan(0.9);
  });

  it('does not click: it rises and falls in some milliseconds', () => {
    const samples = of(name);
    const firstMs = samples.subarray(0, Math.round(0.001 * RATE_HZ));
    expect(firstMs.reduce((most, each) => Math.max(most, Math.abs(each)), 0)).toBeLessThan(0.05);
  });
});

describe('by ear alone', () => {
  it('no two have the same rhythm, nor the rhythm of the alarm, whatever their pitch', () => {
    const heard = [...names, 'alarm'].map((name) =>
      envelope(of(name))
        .slice(0, 60)
        .map((size) => size > 0.2),
    );
    for (const [i, one] of heard.entries())
      for (const [k, other] of heard.entries()) {
        if (k <= i) continue;
        const differing = one.filter((sounds, at) => sounds !== other[at]).length * SLOT_S;
        expect(differing, `${i} and ${k}, seconds that differ`).toBeGreaterThanOrEqual(0.07);
      }
  });

  it('the alarm is louder than any cue and lasts half a second a burst', () => {
    const [first] = bursts(of('alarm'));
    expectClose((first?.toS ?? 0) - (first?.fromS ?? 0), 0.5, 0.03, 's');
    const alarm = loudnessLufs(of('alarm').subarray(0, Math.round(0.5 * RATE_HZ)), RATE_HZ);
    expect(alarm).toBeGreaterThan(CLIP_LUFS);
  });
});
