import { describe, expect, it } from 'vitest';
import { assimilateInOrder } from '../../../server/core/track/outOfOrder.ts';
import { type Evidence, startTrack, type Track } from '../../../server/core/track/track.ts';
import { trustAt } from '../../../server/core/track/trust.ts';

const run = (list: readonly Evidence[]): Track =>
  list.reduce((track, each) => assimilateInOrder(track, each).track, startTrack(0.05));
const every = (ms: number, count: number, of: (atMs: number) => Evidence): Evidence[] =>
  Array.from({ length: count }, (_, index) => of(index * ms));
const count = (atMs: number): Evidence => ({ kind: 'count', atMs, mm: 0.05 * atMs });
const seen = (atMs: number): Evidence => ({ kind: 'fix', by: 'scan', atMs, positionMm: 0.05 * atMs });
const press = (atMs: number): Evidence => ({ kind: 'fix', by: 'press', atMs, positionMm: 0.05 * atMs });
const placed = seen(0);

describe('how far a place may be trusted', () => {
  it('not at all before anything is known', () => {
    expect(trustAt(startTrack(0.05), 0, 150)).toBe('lost');
  });

  it('a count that falls silent is guessed at, and lost after half a second', () => {
    const track = run([placed, ...every(40, 50, count)]);
    const last = 49 * 40;
    expect([100, 240, 260, 490, 500].map((ms) => trustAt(track, last + ms, 150))).toEqual([
      'known',
      'known',
      'guessing',
      'guessing',
      'lost',
    ]);
  });

  it('or after four of its intervals, if it speaks seldom', () => {
    const track = run([placed, ...every(400, 20, count)]);
    const last = 19 * 400;
    expect([700, 900, 1500, 1700].map((ms) => trustAt(track, last + ms, 150))).toEqual([
      'known',
      'guessing',
      'guessing',
      'lost',
    ]);
  });

  it('a camera likewise; while a count goes on, its silence loses nothing', () => {
    const camera = run(every(66, 30, seen));
    expect(trustAt(camera, 29 * 66 + 200, 150)).toBe('known');
    expect(trustAt(camera, 29 * 66 + 600, 150)).toBe('lost');
    const later = every(40, 40, count).map((each) => ({ ...each, atMs: each.atMs + 29 * 66 }));
    const both = later.reduce((track, each) => assimilateInOrder(track, each).track, camera);
    expect(trustAt(both, 29 * 66 + 39 * 40 + 40, 150)).toBe('known');
  });

  it('presses are carried on past a mark that was not pressed, but not past many', () => {
    const track = run(every(3000, 8, press));
    const last = 7 * 3000;
    expect([0, 2900, 6000, 12_000].map((ms) => trustAt(track, last + ms, 150))).toEqual([
      'known',
      'known',
      'guessing',
      'lost',
    ]);
  });

  it('wood that a person holds still stays known, however long', () => {
    const track = run([placed, ...every(40, 50, count), { kind: 'standing', atMs: 2000 }]);
    expect(trustAt(track, 600_000, 150)).toBe('known');
  });

  it('closer marks allow less doubt', () => {
    const track = run(every(3000, 8, press));
    const order = ['known', 'guessing', 'lost'];
    const at = [300, 150, 75, 30, 10].map((spacing) => order.indexOf(trustAt(track, 7 * 3000 + 2000, spacing)));
    expect(at).toEqual([...at].sort((a, b) => a - b));
    expect(at.at(-1)).toBe(2);
  });
});
