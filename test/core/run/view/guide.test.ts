import { describe, expect, it } from 'vitest';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { fold } from '../../../../server/core/run/fold.ts';
import { debriefOf } from '../../../../server/core/run/view/debrief.ts';
import { guideAt } from '../../../../server/core/run/view/guide.ts';
import { expectClose } from '../../../kit/close.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

const start: RunEvent = { kind: 'started', atMs: 0, withoutSound: true };
const stateAfter = (...events: readonly RunEvent[]) => fold(smallSetup(), [start, ...events]);
const travel = (fromMs: number, toMs: number, mmPerMs = 0.05): RunEvent[] =>
  Array.from({ length: Math.floor((toMs - fromMs) / 50) + 1 }, (_, index) => ({
    kind: 'moved',
    atMs: fromMs + 50 * index,
    mm: mmPerMs * 50 * index,
  }));

describe('the guide', () => {
  it('before the start names the first bevel as the next one', () => {
    expect(guideAt(fold(smallSetup(), []), 0)).toMatchObject({
      state: 'ready',
      mark: 0,
      nextMark: 1,
      nextDeg: 8,
      positionMm: null,
    });
  });

  it('on the pedal shows the bevel being turned to', () => {
    const guide = guideAt(stateAfter({ kind: 'pressed', gesture: 'next', atMs: 4000 }), 4200);
    expect(guide).toMatchObject({
      state: 'feeding',
      targetDeg: 10,
      rateDegPerS: null,
      mark: 1,
      nextMark: 2,
      nextDeg: 10,
    });
  });

  it('on a count of travel shows the exact tilt for the wood at the blade, carried on between readings', () => {
    const guide = guideAt(stateAfter(...travel(1000, 2500)), 2520);
    expectClose(guide.positionMm ?? Number.NaN, 76, 1e-9, 'position');
    expectClose(guide.targetDeg ?? Number.NaN, 8 + (2 * 76) / 150, 1e-9, 'target');
    expectClose(guide.rateDegPerS ?? Number.NaN, (2 / 150) * 50, 1e-9, 'rate');
    expectClose(guide.etaMs ?? Number.NaN, (150 - 76) / 0.05, 1e-6, 'eta');
  });

  it('says how little presses tell between two marks', () => {
    const state = stateAfter(
      { kind: 'pressed', gesture: 'next', atMs: 4000 },
      { kind: 'pressed', gesture: 'next', atMs: 7000 },
    );
    const guide = guideAt(state, 8500);
    expectClose(guide.positionMm ?? Number.NaN, 225, 1e-9, 'position');
    // More than a press is good for, less than the gap itself.
    expect(guide.uncertaintyMm).toBeGreaterThan(6);
    expect(guide.uncertaintyMm).toBeLessThan(75);
    expect(guideAt(state, 60_000).positionMm).toBe(300);
  });
});

describe('a guess', () => {
  it('passes no mark that nobody has said to be there, fed or stopped', () => {
    const presses: RunEvent[] = [4000, 7000].map((atMs) => ({ kind: 'pressed', gesture: 'next', atMs }));
    const fed = stateAfter(...presses);
    const stopped = stateAfter(...presses, { kind: 'stopped', by: 'page', atMs: 20_000 });
    for (const [state, atMs] of [
      [fed, 20_000],
      [stopped, 20_100],
      [stopped, 60_000],
    ] as const)
      expect(guideAt(state, atMs)).toMatchObject({ mark: 2, nextMark: 3, positionMm: 300 });
  });
});

describe('the debrief', () => {
  it('tells how far off the tilt was along the frame', () => {
    const tilts: RunEvent[] = [];
    for (const event of travel(1000, 13_100)) {
      const mm = event.kind === 'moved' ? event.mm : 0;
      tilts.push(event, { kind: 'tilted', atMs: event.atMs, deg: mm < 300 ? 10 : 12 });
    }
    const debrief = debriefOf(smallSetup(), [start, ...tilts]);
    expect(debrief.measured).toBe(true);
    expect(debrief.marks.map(({ hadDeg }) => hadDeg)).toEqual([null, 10, 10, 12, 12]);
    // Second computation: the error runs 2..0..-2 at 10 degrees, then 0..1..3 at 12, linear between the marks.
    const meanSquare = (2 * (4 / 3) + 1 / 3 + (1 + 3 + 9) / 3) / 4;
    expectClose(debrief.rmsErrorDeg ?? Number.NaN, Math.sqrt(meanSquare), 0.03, 'rms');
    expectClose(debrief.worst?.errorDeg ?? Number.NaN, 3, 0.05, 'worst');
  });

  it('knows no errors where no tilt was read', () => {
    const debrief = debriefOf(smallSetup(), [start, { kind: 'pressed', gesture: 'next', atMs: 3000 }]);
    expect(debrief).toMatchObject({ measured: false, rmsErrorDeg: null, worst: null });
    expect(debrief.marks[0]).toMatchObject({ reachedAtMs: 3000, calledAtMs: 0 });
  });
});
