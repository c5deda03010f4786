import { expect, it, onTestFinished } from 'vitest';
import { createOwnTime } from '../../server/live/ownTime.ts';

/** Two clocks in the hand of the test. */
function aTime() {
  const clocks = { steady: 1000, wall: 5_000_000 };
  const told: string[] = [];
  const ownTime = createOwnTime({ steadyMs: () => clocks.steady, wallMs: () => clocks.wall });
  onTestFinished(() => ownTime.close());
  ownTime.watch({ stoodStill: (detail) => told.push(detail) });
  const pass = (steadyMs: number, wallMs = steadyMs): void => {
    clocks.steady += steadyMs;
    clocks.wall += wallMs;
    ownTime.look();
  };
  return { pass, told };
}

it('tells once that the server stood still for longer than a source may be silent, and nothing of less', () => {
  const { pass, told } = aTime();
  for (const ms of [10, 50, 300, 500]) pass(ms);
  expect(told).toEqual([]);
  pass(3000);
  pass(10);
  expect(told).toEqual(['The server stood still for 3.0 s.']);
});

it('tells of a machine that slept, whose steady clock slept too, but not of a clock that was set back', () => {
  const { pass, told } = aTime();
  pass(20, -3_600_000);
  expect(told).toEqual([]);
  pass(20, 60_020);
  expect(told).toEqual(['The server’s machine slept, or its clock was set forward, by 60.0 s.']);
});
