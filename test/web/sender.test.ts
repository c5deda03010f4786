import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createTurns } from '../../server/web/fairTurns.ts';
import { createSender } from '../../server/web/sockets/sender.ts';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setImmediate', 'performance'] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** The turns' own clock. */
let nowMs = 0;

function aSender() {
  const said: string[] = [];
  const turns = createTurns(
    () => {},
    () => nowMs,
  );
  const sender = createSender(turns, { pause: () => said.push('pause'), resume: () => said.push('resume') });
  return { sender, said, turns };
}
const arrive = (sender: ReturnType<typeof aSender>['sender'], count: number) =>
  new Set(Array.from({ length: count }, () => sender.arrived()));

test('a legal sender is never held up, nor one that catches up after it stood still', () => {
  const { sender, said } = aSender();
  for (let second = 0; second < 20; second += 1) {
    expect(arrive(sender, 200)).toEqual(new Set(['take']));
    vi.advanceTimersByTime(1000);
  }
  expect(arrive(sender, 1000)).toEqual(new Set(['take']));
  expect(said).toEqual([]);
});

test('a flood is left on the wire until the second is over, and is ended after five', () => {
  const { sender, said } = aSender();
  for (let second = 0; second < 5; second += 1) {
    expect(arrive(sender, 1200)).toEqual(new Set(['take', 'refuse']));
    expect(said.splice(0)).toEqual(['pause']);
    vi.advanceTimersByTime(1000);
    expect(said.splice(0)).toEqual(['resume']);
  }
  expect(sender.arrived()).toBe('close');
});

test('whoever has much waiting is not read until most of it is done', () => {
  const { sender, said } = aSender();
  let done = 0;
  const slow = (): void => {
    // Longer than a turn.
    nowMs += 3;
    done += 1;
  };
  for (let n = 0; n < 40; n += 1) sender.do('run', slow);
  expect(said).toEqual(['pause']);
  vi.runAllTimers();
  expect(done).toBe(40);
  expect(said).toEqual(['pause', 'resume']);
});

test('one that is let go is read on, so that its last words come through', () => {
  const { sender, said } = aSender();
  arrive(sender, 1001);
  sender.letGo();
  expect(said).toEqual(['pause', 'resume']);
  arrive(sender, 100);
  expect(said).toEqual(['pause', 'resume']);
});
