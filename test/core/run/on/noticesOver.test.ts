/** A notice goes when what it says is mended, and stays until then. */
import { describe, expect, it } from 'vitest';
import type { RunEvent, RunNoticeCode } from '../../../../server/core/run/engine/events.ts';
import { initialState } from '../../../../server/core/run/engine/initialState.ts';
import type { RunState } from '../../../../server/core/run/engine/state.ts';
import { step } from '../../../../server/core/run/step.ts';
import { press, scan, started } from '../../../kit/playRun.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

/** The notice after each event, the run woken in between whenever it asks. */
function noticesOf(events: readonly RunEvent[], setup = smallSetup()): (RunNoticeCode | null)[] {
  let state: RunState = initialState(setup);
  return events.map((event) => {
    for (let wakes = 0; state.wakeAtMs !== null && state.wakeAtMs < event.atMs && wakes < 100; wakes += 1)
      [state] = step(state, { kind: 'woken', atMs: state.wakeAtMs });
    [state] = step(state, event);
    return state.notice?.code ?? null;
  });
}
const lastTwo = (events: readonly RunEvent[], setup = smallSetup()) => noticesOf(events, setup).slice(-2);

const count = (fromMs: number, toMs: number, fromMm: number, mmPerMs = 0.05): RunEvent[] =>
  Array.from({ length: Math.floor((toMs - fromMs) / 40) + 1 }, (_, i) => ({
    kind: 'moved',
    atMs: fromMs + 40 * i,
    mm: fromMm + 40 * i * mmPerMs,
  }));
const resumed = (atMs: number): RunEvent => ({ kind: 'resumed', atMs });
const lost = (atMs: number): RunEvent => ({ kind: 'signal-lost', lifeline: 'travel', detail: 'gone', atMs });

describe('a notice goes', () => {
  it('of a lost signal with "resume", and stays away through the marks after it', () => {
    const told = noticesOf([started(), press(5000), lost(6000), resumed(9000), press(12_000), press(15_000)]);
    expect(told).toEqual([null, null, 'signal-lost', null, null, null]);
  });

  it('of a skipped, doubled or passed mark with the next one that is told', () => {
    expect(lastTwo([started(), scan(5000, 1), scan(10_000, 3), scan(13_000, 4)])).toEqual(['mark-skipped', null]);
    expect(lastTwo([started(), scan(5000, 1), scan(5400, 1), scan(8000, 2)])).toEqual(['mark-doubled', null]);
    expect(lastTwo([started(), scan(5000, 1), scan(10_000, 3), press(13_000, 'back')])).toEqual(['mark-skipped', null]);
    const tilted: RunEvent = { kind: 'tilted', atMs: 5500, deg: 8 };
    expect(lastTwo([started(), scan(5000, 1), scan(5400, 1), tilted])).toEqual(['mark-doubled', 'mark-doubled']);
    const behind = [started(), scan(5000, 1), scan(8000, 2), scan(11_000, 3), scan(11_500, 1)];
    expect(lastTwo([...behind, press(14_000)])).toEqual(['mark-behind', null]);
  });

  it('of a guessed mark with the next one that is read, and not before', () => {
    const guessed = [started(), scan(5000, 1), scan(8000, 2), { kind: 'tilted', atMs: 13_000, deg: 8 } as const];
    expect(lastTwo([...guessed, { kind: 'tilted', atMs: 13_400, deg: 8 }])).toEqual(['mark-guessed', 'mark-guessed']);
    expect(lastTwo([...guessed, scan(14_000, 4)])).toEqual(['mark-guessed', null]);
  });

  it('of a doubtful mark, and of a count that began anew, with the next one that is told', () => {
    const placed = [started(), scan(4000, 1), ...count(4000, 5000, 0)];
    expect(lastTwo([...placed, scan(5010, 4), press(6900)])).toEqual(['mark-doubtful', null]);
    expect(lastTwo([...placed, { kind: 'moved', atMs: 5040, mm: -500 }, press(6900)])).toEqual([
      'count-restarted',
      null,
    ]);
  });

  it('of a feed that was too fast once a bevel is called in time at a feed that is safe, or the wood stands', () => {
    const fast = [started(), scan(4000, 1), ...count(4000, 6900, 0, 0.09)];
    expect(noticesOf(fast).at(-1)).toBe('too-fast');
    expect(lastTwo([...fast, press(6920, 'stop')])).toEqual(['too-fast', null]);
    const slow = noticesOf([...fast, ...count(6940, 14_000, 264, 0.03)]);
    expect(slow.at(-1)).toBe(null);
    // Not with the first slower reading, but with the call that was in time.
    expect(slow[fast.length + 2]).toBe('too-fast');
  });

  it('of wood that moves while the run is stopped once it stands, and comes again if it moves again', () => {
    const stopped = [started(), scan(4000, 1), ...count(4000, 5000, 0), press(5010, 'stop')];
    const moving = [...stopped, ...count(5040, 6040, 52)];
    expect(noticesOf(moving).at(-1)).toBe('moved-while-stopped');
    const stands = [...moving, ...count(6080, 7400, 102, 0)];
    expect(noticesOf(stands).at(-1)).toBe(null);
    expect(noticesOf([...stands, ...count(7440, 8440, 102)]).at(-1)).toBe('moved-while-stopped');
  });

  it('of wood that was pulled back, and of a restart, with "resume"', () => {
    const back = [started(), scan(4000, 1), ...count(4000, 5000, 0), { kind: 'moved', atMs: 5040, mm: 20 } as const];
    expect(lastTwo([...back, resumed(9000)])).toEqual(['pulled-back', null]);
    const restarted: RunEvent = { kind: 'stopped', by: 'restart', atMs: 6000 };
    expect(lastTwo([started(), press(5000), restarted, resumed(9000)])).toEqual(['restarted', null]);
  });

  it('at the end of the run, but for what is told there', () => {
    const ended: RunEvent = { kind: 'ended', atMs: 9000 };
    expect(lastTwo([started(), scan(5000, 1), scan(5400, 1), ended])).toEqual(['mark-doubled', null]);
    const tilted: RunEvent = { kind: 'tilted', atMs: 20_000, deg: 9 };
    expect(lastTwo([started(), scan(5000, 1), scan(17_000, 5), tilted])).toEqual(['mark-skipped', 'mark-skipped']);
  });
});
