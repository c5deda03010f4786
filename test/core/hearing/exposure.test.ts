import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exposureOf, exposureRange, type Listening } from '../../../server/core/hearing/exposure.ts';
import { expectClose } from '../../kit/close.ts';

const quiet: Listening = { noiseDba: 92, nrrDb: 25, wordsOverDb: 10, runMin: 4, wordsMin: 1 };

describe('what a run asks of an ear', () => {
  it('takes the noise under the protector, and the words over it', () => {
    const { noiseAtEarDba, wordsAtEarDba } = exposureOf(quiet);
    expect(noiseAtEarDba).toBe(83);
    // 83 and 93 dB together (derived): 93.41.
    expectClose(wordsAtEarDba, 93.41, 0.01, 'dBA');
  });

  it('takes all that such saws may make where the noise is not known', () => {
    const { least, most } = exposureRange({ ...quiet, noiseDba: null });
    expect([least.noiseAtEarDba, most.noiseAtEarDba]).toEqual([90 - 9, 105 - 9]);
    expect(exposureRange(quiet)).toEqual({ least: exposureOf(quiet), most: exposureOf(quiet) });
  });

  it('says fine, half, past and too loud as the day goes', () => {
    // NIOSH at 105 dBA: 4.7 min a day (derived).
    const bare: Listening = { noiseDba: 105, nrrDb: 0, wordsOverDb: 0, runMin: 2, wordsMin: 0 };
    expect(exposureOf(quiet).verdict).toBe('fine');
    expect(exposureOf(bare).verdict).toBe('fine');
    expect(exposureOf({ ...bare, runMin: 3 }).verdict).toBe('half');
    expect(exposureOf({ ...bare, runMin: 5 }).verdict).toBe('past');
    expect(exposureOf({ ...bare, noiseDba: 116 }).verdict).toBe('too loud');
    expect(exposureOf({ ...bare, wordsOverDb: 14, wordsMin: 0 }).verdict).toBe('too loud');
    expect(exposureOf({ ...bare, runMin: 2 }).runsADay).toBe(2);
  });

  it('counts nothing under 80 dBA', () => {
    const still = exposureOf({ noiseDba: 70, nrrDb: 0, wordsOverDb: 5, runMin: 600, wordsMin: 60 });
    expect(still).toMatchObject({ oshaPercent: 0, nioshPercent: 0, verdict: 'fine' });
    expect(still.runsADay).toBe(Number.POSITIVE_INFINITY);
  });

  it('never finds less for more noise, louder words, a longer run or a worse protector', () => {
    const listening = fc.record({
      noiseDba: fc.double({ min: 60, max: 115, noNaN: true }),
      nrrDb: fc.double({ min: 0, max: 37, noNaN: true }),
      wordsOverDb: fc.double({ min: -10, max: 30, noNaN: true }),
      runMin: fc.double({ min: 0, max: 60, noNaN: true }),
      wordsMin: fc.double({ min: 0, max: 80, noNaN: true }),
    });
    const more = fc.double({ min: 0, max: 10, noNaN: true });
    fc.assert(
      fc.property(listening, more, (one, by) => {
        const now = exposureOf(one);
        for (const worse of [
          { ...one, noiseDba: one.noiseDba + by },
          { ...one, wordsOverDb: one.wordsOverDb + by },
          { ...one, runMin: one.runMin + by },
          { ...one, wordsMin: one.wordsMin + by },
          { ...one, nrrDb: one.nrrDb - by },
        ]) {
          const then = exposureOf(worse);
          expect(then.oshaPercent).toBeGreaterThanOrEqual(now.oshaPercent - 1e-9);
          expect(then.nioshPercent).toBeGreaterThanOrEqual(now.nioshPercent - 1e-9);
          expect(then.noisePercent).toBeLessThanOrEqual(Math.max(then.oshaPercent, then.nioshPercent) + 1e-9);
        }
      }),
    );
  });
});
