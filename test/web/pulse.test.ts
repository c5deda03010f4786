import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { atFixedIntervals } from '../../server/web/fixedInterval.ts';
import { createPulse } from '../../server/web/pulse.ts';
import { smallRun } from './smallRun.ts';

beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }));
afterEach(() => void vi.useRealTimers());

test('a ready run is shown four times a second, a feeding one thirty times, a stopped one four times again once its wood stands', async () => {
  const run = smallRun('r1');
  const pulse = createPulse();
  let shown = 0;
  pulse.follow(run, () => {
    shown += 1;
  });
  expect(shown).toBe(1);
  const inTenSeconds = (): number => {
    shown = 0;
    vi.advanceTimersByTime(10_000);
    return shown / 10;
  };
  const resting = inTenSeconds();
  expect(resting).toBeGreaterThan(3);
  expect(resting).toBeLessThan(5);
  await run.command('start');
  const feeding = inTenSeconds();
  expect(feeding).toBeGreaterThan(29);
  expect(feeding).toBeLessThan(31);
  await run.command('stop-feed');
  shown = 0;
  vi.advanceTimersByTime(1500);
  expect(shown).toBeGreaterThan(40);
  vi.advanceTimersByTime(1000);
  expect(inTenSeconds()).toBe(resting);
  pulse.close();
});

test('a press is shown at once; what changes no mark and no state waits its turn', async () => {
  const run = smallRun('r1');
  const pulse = createPulse();
  const shown: number[] = [];
  pulse.follow(run, ({ mark }) => shown.push(mark));
  await run.command('start');
  await run.reading('test', { kind: 'pedal' });
  expect(shown).toEqual([0, 0, 1]);
  await run.reading('test', { kind: 'pedal', gesture: 'again' });
  await run.reading('test', { kind: 'pedal', gesture: 'again' });
  expect(shown).toEqual([0, 0, 1]);
  pulse.close();
});

test('two who follow see the same; when both have gone, the run is let go', () => {
  const run = smallRun('r1');
  const pulse = createPulse();
  const shown: string[] = [];
  const ends = ['a', 'b'].map((name) => pulse.follow(run, () => shown.push(name)));
  expect(run.followers()).toBe(1);
  shown.length = 0;
  vi.advanceTimersByTime(300);
  expect(shown).toEqual(['a', 'b']);
  ends[0]?.();
  ends[0]?.();
  expect(run.followers()).toBe(1);
  ends[1]?.();
  expect(run.followers()).toBe(0);
  expect(vi.getTimerCount()).toBe(0);
});

test('ticks keep to their grid, and those missed while the process was busy are never made up for', () => {
  const ticks: number[] = [];
  let nowMs = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => nowMs);
  const end = atFixedIntervals(100, () => {
    ticks.push(nowMs);
    // The second tick holds the process up for three and a half periods.
    if (ticks.length === 2) nowMs += 350;
  });
  for (let steps = 0; steps < 1000 && nowMs < 1000; steps += 1) {
    nowMs += 10;
    vi.advanceTimersByTime(10);
  }
  end();
  vi.restoreAllMocks();
  expect(ticks.slice(0, 2)).toEqual([100, 200]);
  const after = ticks.slice(2);
  expect(after.length).toBeLessThanOrEqual(5);
  for (const [index, tick] of after.entries()) {
    expect(tick % 100).toBeLessThanOrEqual(50);
    if (index > 0) expect(tick - (after[index - 1] ?? 0)).toBeGreaterThanOrEqual(50);
  }
});
