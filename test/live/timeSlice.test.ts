import { expect, test } from 'vitest';
import { inTimeSlices } from '../../server/live/timeSlice.ts';

function* work(steps: number, stepMs: number): Generator<void, number> {
  for (let step = 0; step < steps; step += 1) {
    const untilMs = performance.now() + stepMs;
    while (performance.now() < untilMs);
    yield;
  }
  return steps;
}

test('gives what the work gives, and others have their turn before it is done', async () => {
  let turns = 0;
  let isDone = false;
  const others = (): void => {
    turns += 1;
    if (!isDone) setImmediate(others);
  };
  setImmediate(others);
  expect(await inTimeSlices(work(40, 1))).toBe(40);
  isDone = true;
  expect(turns).toBeGreaterThan(5);
});

test('what fails in the middle rejects', async () => {
  function* failing(): Generator<void, number> {
    yield;
    throw new Error('the disk is gone');
  }
  await expect(inTimeSlices(failing())).rejects.toThrow('the disk is gone');
});
