/** The ear's side of a device, without a browser: lateness from taps, when a cue is due, who hears what, what a run asks of an ear. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CUES, type CueName, cueLengthS } from '../../client/kit/hearing/cues.ts';
import { COMING_UP_MS, CueWatch } from '../../client/kit/hearing/cueWatch.ts';
import type { EarSettings } from '../../client/kit/hearing/earSettings.ts';
import { isHeardBy } from '../../client/kit/hearing/hears.ts';
import { EYE_SLOWER_MS, latenessOf } from '../../client/kit/hearing/lateness.ts';
import { listeningOf } from '../../client/kit/hearing/listeningOf.ts';
import { whatToDo } from '../../client/kit/hearing/whatToDo.ts';
import { exposureOf } from '../../server/core/hearing/exposure.ts';
import { expectClose } from '../kit/close.ts';
import { modelledTapper } from '../kit/modelledTapper.ts';

describe('how late an ear is, from taps', () => {
  it('is found within 35 ms of the truth for nine in ten tappers and within 55 ms for all but one in a hundred', () => {
    const offMs: number[] = [];
    for (let seed = 1; seed <= 1000; seed++) {
      const tapper = modelledTapper(seed);
      const lateMs = (seed * 7) % 400;
      const heard = Array.from({ length: 8 }, () => lateMs + tapper.toSound());
      const seen = Array.from({ length: 8 }, () => tapper.toLight());
      const found = latenessOf(heard, seen);
      if (found.ok) offMs.push(Math.abs(found.extraMs - lateMs));
    }
    const sorted = offMs.toSorted((a, b) => a - b);
    expect(sorted.length).toBeGreaterThan(900);
    expect(sorted[Math.floor(0.9 * sorted.length)]).toBeLessThan(35);
    expect(sorted[Math.floor(0.99 * sorted.length)]).toBeLessThan(55);
  });

  it('says a doubt that covers the truth as often as two standard errors should', () => {
    let covered = 0;
    let told = 0;
    for (let seed = 1; seed <= 1000; seed++) {
      const tapper = modelledTapper(seed);
      const found = latenessOf(
        Array.from({ length: 8 }, () => 200 + tapper.toSound()),
        Array.from({ length: 8 }, () => tapper.toLight()),
      );
      if (!found.ok) continue;
      told += 1;
      // What tappers differ by in eye and ear is no error of the taps: 10 ms in the model.
      if (Math.abs(found.extraMs - 200) <= Math.hypot(found.doubtMs, 20)) covered += 1;
    }
    expect(covered / told).toBeGreaterThan(0.88);
  });

  it('takes the person out: a slow one and a quick one find the same', () => {
    fc.assert(
      fc.property(fc.integer({ min: 120, max: 400 }), fc.integer({ min: 0, max: 500 }), (ownMs, lateMs) => {
        const found = latenessOf(Array(8).fill(ownMs + lateMs), Array(8).fill(ownMs + EYE_SLOWER_MS));
        expect(found).toEqual({ ok: true, extraMs: lateMs, doubtMs: 0 });
      }),
    );
  });

  it('is never less than nothing, bears one tap slept through, and passes over taps that were under way', () => {
    expect(latenessOf(Array(8).fill(160), Array(8).fill(250))).toMatchObject({ ok: true, extraMs: 0 });
    const oneAsleep = [...Array(7).fill(340), 1400];
    expect(latenessOf(oneAsleep, Array(8).fill(195))).toMatchObject({ ok: true, extraMs: 180 });
    expect(latenessOf([...Array(6).fill(340), 12, 30], Array(8).fill(195))).toMatchObject({ ok: true, extraMs: 180 });
  });

  it('gives no figure for too few taps or for taps all over the place', () => {
    expect(latenessOf([340, 340, 340, 340], Array(8).fill(195))).toEqual({ ok: false, why: 'too few' });
    expect(latenessOf([200, 900, 300, 800, 500, 1100, 250, 700], Array(8).fill(195))).toEqual({
      ok: false,
      why: 'too uneven',
    });
  });
});

describe('who hears what', () => {
  const toHand = { to: 'tilt hand', mark: 3 } as const;
  const step = { to: 'tilt hand' } as const;
  const stop = { to: 'everyone' } as const;
  const ease = { to: 'sawyer' } as const;
  const markToSawyer = { to: 'sawyer', mark: 3 } as const;

  it.each([
    ['bevels', [true, true, true, false, false]],
    ['stops', [false, false, true, true, false]],
    ['stops and marks', [false, false, true, true, true]],
    ['everything', [true, true, true, true, true]],
  ] as const)('%s', (hears, wanted) => {
    expect([toHand, step, stop, ease, markToSawyer].map((call) => isHeardBy(hears, call))).toEqual(wanted);
  });
});

describe('when a cue is due', () => {
  const guide = (more: object = {}) => ({ state: 'feeding', mark: 1, nextMark: 2, etaMs: null, ...more }) as const;
  const call = (id: string, deg: number) => ({ id, deg, durationMs: 900 });
  const watchFrom = (leads: 'heel' | 'head' = 'heel') => {
    const watch = new CueWatch(leads);
    watch.told(guide(), 0);
    return watch;
  };

  it('tells the way to turn after the words, once, and not before', () => {
    const watch = watchFrom();
    watch.called(call('c1', 4), 1000);
    expect([1500, 1900, 2100].map((nowMs) => watch.told(guide(), nowMs))).toEqual([null, null, null]);
    watch.called(call('c2', 6), 3000);
    expect([3100, 3899, 3950, 4030, 4050].map((nowMs) => watch.told(guide(), nowMs))).toEqual([
      null,
      null,
      null,
      'more',
      null,
    ]);
    watch.called(call('c3', 5), 5000);
    expect(watch.told(guide(), 6030)).toBe('less');
    watch.called(call('c4', 5), 7000);
    expect(watch.told(guide(), 8030)).toBe(null);
  });

  it('is silent where the words were taken back, the next ones have begun, or it would come too late', () => {
    const watch = watchFrom();
    watch.called(call('c1', 4), 0);
    watch.called(call('c2', 6), 2000);
    watch.tookBack('c2');
    expect(watch.told(guide(), 3030)).toBe(null);
    watch.called(call('c3', 4), 4000);
    watch.called({ id: 'c4', durationMs: 3000 }, 4500);
    expect(watch.told(guide(), 5030)).toBe(null);
    expect(watch.told(guide(), 8000)).toBe(null);
    watch.called(call('c5', 6), 9000);
    expect(watch.told(guide(), 11_000)).toBe(null);
  });

  it('says that a mark is coming up once, and only from the seconds before it', () => {
    const watch = watchFrom();
    expect(watch.told(guide({ etaMs: COMING_UP_MS + 500 }), 0)).toBe(null);
    expect(watch.told(guide({ etaMs: COMING_UP_MS - 20 }), 500)).toBe('coming up');
    expect(watch.told(guide({ etaMs: 1500 }), 1500)).toBe(null);
    // Words come first: it is left out, not put off.
    watch.called(call('c1', 4), 1600);
    expect(watch.told(guide({ nextMark: 3, etaMs: 2000 }), 2000)).toBe(null);
    expect(watch.told(guide({ nextMark: 3, etaMs: 1400 }), 2600)).toBe(null);
  });

  it('says that a mark is reached, in the order of the run, and nothing for a press that is taken back', () => {
    const heel = watchFrom();
    expect(heel.told(guide({ mark: 2, nextMark: 3 }), 100)).toBe('reached');
    expect(heel.told(guide({ mark: 2, nextMark: 3 }), 120)).toBe(null);
    expect(heel.told(guide({ mark: 1 }), 200)).toBe(null);
    expect(heel.told(guide({ mark: 0, nextMark: 1 }), 300)).toBe(null);
    const head = new CueWatch('head');
    head.told(guide({ mark: 9, nextMark: 8 }), 0);
    expect(head.told(guide({ mark: 8, nextMark: 7 }), 100)).toBe('reached');
    expect(head.told(guide({ mark: 9, nextMark: 8 }), 200)).toBe(null);
    expect(head.told(guide({ state: 'finished', mark: 8, nextMark: null }), 300)).toBe('reached');
  });

  it('tells of a press that was too soon after the words, once, in every state, and not when it is long past', () => {
    const watch = watchFrom();
    watch.called(call('c1', 4), 1000);
    watch.refused(1200);
    expect([1300, 1950, 2030, 2050].map((nowMs) => watch.told(guide(), nowMs))).toEqual([null, null, 'too soon', null]);
    watch.refused(3000);
    expect(watch.told(guide({ state: 'lost' }), 3010)).toBe('too soon');
    watch.called({ id: 'c2', durationMs: 4000 }, 4000);
    watch.refused(4100);
    expect(watch.told(guide(), 8200)).toBe(null);
  });

  it('is silent while the wood stands', () => {
    const watch = watchFrom();
    watch.called(call('c1', 4), 0);
    watch.called(call('c2', 6), 1000);
    expect(watch.told(guide({ state: 'stopped', etaMs: 2000 }), 2030)).toBe(null);
    expect(watch.told(guide({ state: 'stopped', mark: 2 }), 2100)).toBe(null);
  });
});

describe('the cue tones', () => {
  const names = Object.keys(CUES) as CueName[];

  /** Source: MIL-STD-1472E 5.3 (read): 200 to 5000 Hz, at least half a second. */
  it('last at least half a second and stay within 200 to 5000 Hz with two overtones', () => {
    for (const name of names) {
      expect(cueLengthS(name), name).toBeGreaterThanOrEqual(0.5);
      for (const { hz } of CUES[name]) {
        expect(hz, name).toBeGreaterThanOrEqual(200);
        expect(3 * hz, name).toBeLessThanOrEqual(5000);
      }
    }
  });

  it('are told apart by rhythm alone, sounding or silent in tenths of a second', () => {
    const rhythm = (name: CueName): string =>
      Array.from({ length: 6 }, (_, i) =>
        CUES[name].some(({ atS, lengthS }) => 0.1 * i + 0.05 >= atS && 0.1 * i + 0.05 < atS + lengthS) ? '-' : ' ',
      ).join('');
    const differing = (one: string, other: string): number => [...one].filter((at, i) => at !== other[i]).length;
    for (const one of names)
      for (const other of names)
        if (one !== other) expect(differing(rhythm(one), rhythm(other)), `${one}, ${other}`).toBeGreaterThanOrEqual(2);
  });
});

describe('what a run asks of this ear', () => {
  const output = { measured: null, levelDb: -6, understoodDb: null };
  const settings: EarSettings = {
    hears: 'bevels',
    output: 'wired',
    wired: output,
    wireless: output,
    loudspeaker: output,
    cues: false,
    noiseDba: 95,
    nrrDb: 0,
  };
  const plan = { pace: { durationS: 240 }, marks: Array(10).fill({}) } as unknown as Parameters<typeof listeningOf>[1];
  const clips = [{ deg: 3, durationMs: 900 }, { deg: 4, durationMs: 1100 }, { durationMs: 9000 }];

  it('counts a call for each mark, and none where no bevel is heard', () => {
    expectClose(listeningOf(settings, plan, clips).wordsMin, 10 / 60, 1e-9, 'min');
    expect(listeningOf({ ...settings, hears: 'stops' }, plan, clips).wordsMin).toBe(0);
    expect(listeningOf(settings, plan, []).wordsMin).toBe(0);
  });

  it('takes the level from what is only just understood, and what is asked of words where nobody has listened for it', () => {
    expect(listeningOf(settings, plan, clips).wordsOverDb).toBe(20);
    const heard = { ...settings, wired: { ...output, understoodDb: -15 } };
    expect(listeningOf(heard, plan, clips).wordsOverDb).toBe(14);
  });

  it('says what helps', () => {
    const bare = exposureOf({ noiseDba: 105, nrrDb: 0, wordsOverDb: 0, runMin: 5, wordsMin: 0 });
    expect(whatToDo({ exposure: bare, isBare: true, isNoiseKnown: true })).toEqual([
      'Wear ear protection that lets the calls through.',
      'Do not run like this.',
    ]);
    const loudWords = exposureOf({ noiseDba: 95, nrrDb: 27, wordsOverDb: 25, runMin: 60, wordsMin: 12 });
    expect(whatToDo({ exposure: loudWords, isBare: false, isNoiseKnown: false })).toContain(
      'Turn the words down: they are what is too loud.',
    );
    const still = exposureOf({ noiseDba: 75, nrrDb: 0, wordsOverDb: 5, runMin: 5, wordsMin: 1 });
    expect(whatToDo({ exposure: still, isBare: true, isNoiseKnown: true })).toEqual([]);
  });
});
