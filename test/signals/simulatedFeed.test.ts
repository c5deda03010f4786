import { setTimeout as pause } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { startSimulatedFeed } from '../../server/signals/simulatedFeed.ts';
import { feedSourceContract } from '../contracts/feedSourceContract.ts';
import { expectClose } from '../kit/close.ts';
import { handTimer } from '../kit/handTimer.ts';

feedSourceContract('the simulated feed', (needs) => startSimulatedFeed({ mPerMin: 3, seed: 1, ...needs }));

function feeding(options: { fromMm?: number; leadInMs?: number; seed?: number; mPerMin?: number } = {}) {
  const timer = handTimer();
  const readings: { readonly atMs: number; readonly mm: number }[] = [];
  startSimulatedFeed({
    mPerMin: 3,
    seed: 1,
    isFeeding: () => true,
    isFinished: () => false,
    send: (mm) => readings.push({ atMs: timer.now(), mm }),
    timer,
    ...options,
  });
  return { timer, readings };
}

it('leaves time to set the first bevel, and then says that the first mark is at the blade', () => {
  const { timer, readings } = feeding({ leadInMs: 4000 });
  timer.goOn(6000);
  expect(readings[0]).toEqual({ atMs: 4000, mm: 0 });
  expect(readings[1]?.atMs).toBe(4020);
});

it('feeds as fast as it was asked to', () => {
  const { timer, readings } = feeding({ mPerMin: 2.4, leadInMs: 0 });
  timer.goOn(120_000);
  const last = readings.at(-1);
  // 2.4 m/min for two minutes is 4800 mm; the hand may swing by 4 %, though over this time it nearly evens out.
  expectClose(last?.mm ?? Number.NaN, 4800, 48, 'travel in two minutes');
});

it('goes on from the last count after a restart, without a lead-in', () => {
  const { timer, readings } = feeding({ fromMm: 812.4 });
  timer.goOn(200);
  expect(readings[0]?.atMs).toBe(20);
  expectClose(readings[0]?.mm ?? Number.NaN, 812.4, 0.2, 'first count');
});

it('has gone as far as the time says when the process has been held up', () => {
  let heldUpMs = 0;
  const timer = handTimer();
  const counts: number[] = [];
  startSimulatedFeed({
    mPerMin: 3,
    seed: 1,
    leadInMs: 0,
    isFeeding: () => true,
    isFinished: () => false,
    send: (mm) => counts.push(mm),
    timer: { now: () => timer.now() + heldUpMs, after: timer.after },
  });
  timer.goOn(5000);
  const even = feeding({ leadInMs: 0 });
  even.timer.goOn(6020);
  heldUpMs = 1000;
  timer.goOn(20);
  expect(counts.at(-1)).toBe(even.readings.at(-1)?.mm);
});

it('feeds on the real clock too', async () => {
  const counts: number[] = [];
  let isFeeding = true;
  const source = startSimulatedFeed({
    mPerMin: 6,
    seed: 2,
    leadInMs: 50,
    isFeeding: () => isFeeding,
    isFinished: () => false,
    send: (mm) => counts.push(mm),
  });
  while ((counts.at(-1) ?? 0) < 20) await pause(10);
  isFeeding = false;
  await pause(600);
  const stoodAt = counts.length;
  await pause(150);
  expect(counts).toHaveLength(stoodAt);
  expect(counts[0]).toBe(0);
  source.stop();
});
