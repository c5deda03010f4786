import { describe, expect, it } from 'vitest';
import { handTimer } from '../kit/handTimer.ts';

/** What a run tells a source, and what a source is to a run. */
export interface FeedSourceNeeds {
  readonly isFeeding: () => boolean;
  readonly isFinished: () => boolean;
  readonly send: (mm: number) => void;
  readonly timer: ReturnType<typeof handTimer>;
}

/** What a run relies on in any source that makes its own travel. `start` may give its first reading within 5 s. */
export function feedSourceContract(name: string, start: (needs: FeedSourceNeeds) => { stop(): void }): void {
  function underTest() {
    const timer = handTimer();
    const run = { isFeeding: false, isFinished: false };
    const readings: { readonly atMs: number; readonly mm: number }[] = [];
    const source = start({
      isFeeding: () => run.isFeeding,
      isFinished: () => run.isFinished,
      send: (mm) => readings.push({ atMs: timer.now(), mm }),
      timer,
    });
    return { timer, run, readings, source };
  }
  const steps = (readings: readonly { readonly mm: number }[]) =>
    readings.slice(1).map(({ mm }, index) => mm - (readings[index]?.mm ?? Number.NaN));

  describe(`${name} keeps the contract of a source of travel`, () => {
    it('says nothing before the run feeds', () => {
      const { timer, readings } = underTest();
      timer.goOn(10_000);
      expect(readings).toEqual([]);
    });

    it('speaks at least five times a second while the run feeds, and its count never runs back', () => {
      const { timer, run, readings } = underTest();
      run.isFeeding = true;
      timer.goOn(20_000);
      expect(readings[0]?.atMs).toBeLessThan(5000);
      expect(readings.every(({ mm }) => Number.isFinite(mm))).toBe(true);
      expect(Math.min(...steps(readings))).toBeGreaterThanOrEqual(0);
      const gaps = steps(readings.map(({ atMs }) => ({ mm: atMs })));
      expect(Math.max(...gaps)).toBeLessThanOrEqual(200);
    });

    it('stands soon after the run has stopped, is silent then, and goes on from there', () => {
      const { timer, run, readings } = underTest();
      run.isFeeding = true;
      timer.goOn(10_000);
      run.isFeeding = false;
      timer.goOn(500);
      const stoodAt = readings.at(-1)?.mm ?? Number.NaN;
      const count = readings.length;
      timer.goOn(60_000);
      expect(readings).toHaveLength(count);
      run.isFeeding = true;
      timer.goOn(300);
      const first = readings[count]?.mm ?? Number.NaN;
      expect(first - stoodAt).toBeGreaterThanOrEqual(0);
      expect(first - stoodAt).toBeLessThan(10);
      timer.goOn(1000);
      expect(readings.at(-1)?.mm).toBeGreaterThan(stoodAt + 10);
    });

    it('waits for nothing once it is stopped, or the run finished', () => {
      for (const end of ['stopped', 'finished'] as const) {
        const { timer, run, readings, source } = underTest();
        run.isFeeding = true;
        timer.goOn(8000);
        if (end === 'stopped') source.stop();
        else run.isFinished = true;
        const count = readings.length;
        timer.goOn(8000);
        expect(readings).toHaveLength(count);
        expect(timer.waiting()).toBe(0);
      }
    });
  });
}
