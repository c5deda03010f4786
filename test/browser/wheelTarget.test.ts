/** Which board the wheel display shows, and which figure on it, by routine and by what is known. */
import { beforeAll, describe, expect, it } from 'vitest';
import { type Target, TargetWatch, wayOf } from '../../client/wheel/useTarget.ts';
import type { Routine } from '../../server/core/routine/routine.ts';
import type { RunSetup } from '../../server/core/run/engine/state.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import type { Guide } from '../../server/core/run/view/guide.ts';
import { demoPlan } from '../kit/demoPlan.ts';

let setupFor: (routine: Routine) => RunSetup;
beforeAll(async () => {
  const plan = await demoPlan();
  setupFor = (routine) => makeSetup(plan, 'pair', {}, routine);
});

function guideAt(setup: RunSetup, positionMm: number | null, more: Partial<Guide> = {}): Guide {
  const next = setup.stations.find((station) => station.positionMm > (positionMm ?? 0));
  return {
    atMs: 1,
    state: 'feeding',
    targetDeg: 7.123,
    calledDeg: 8,
    calledMark: 2,
    isFollowed: positionMm !== null,
    rateDegPerS: 0,
    mark: 1,
    nextMark: next?.mark ?? null,
    nextDeg: next?.callDeg ?? null,
    etaMs: null,
    positionMm,
    speedMmPerS: 50,
    uncertaintyMm: 1,
    trust: 'known',
    safeMPerMin: null,
    easeFeed: false,
    ...more,
  };
}

describe('following', () => {
  it('follows with a continuous position, and turns to one figure after another without', () => {
    const setup = setupFor('following');
    const watch = new TargetWatch(setup);
    expect(watch.told(guideAt(setup, null, { targetDeg: 2 }))).toMatchObject({ board: 'turn', deg: 2 });
    expect(watch.told(guideAt(setup, 100)).board).toBe('follow');
    // The voice confirms a mark; the display goes on following.
    const [, second] = setup.stations;
    expect(watch.called({ mark: second?.mark ?? 0, deg: second?.callDeg ?? 0 }).board).toBe('follow');
  });
});

describe('mark by mark and even turning', () => {
  it('show the figure that was called, large and still, however fine the position is known', () => {
    for (const routine of ['mark by mark', 'even turning'] as const) {
      const setup = setupFor(routine);
      const watch = new TargetWatch(setup);
      const [first, second, third] = setup.stations;
      if (first === undefined || second === undefined || third === undefined) throw new Error('too few marks');
      watch.called({ mark: second.mark, deg: second.callDeg });
      const shown: Target[] = [20, 40, 60].map((mm) => watch.told(guideAt(setup, mm)));
      expect(new Set(shown.map(({ deg }) => deg))).toEqual(new Set([second.callDeg]));
      expect(shown[0]).toMatchObject({ board: 'turn', index: 1, beforeDeg: first.callDeg });
      expect(watch.called({ mark: third.mark, deg: third.callDeg })).toMatchObject({ deg: third.callDeg, index: 2 });
    }
  });

  it('show the figure that was called last when the page was opened after the call', () => {
    const setup = setupFor('mark by mark');
    const [, second, third] = setup.stations;
    const between = ((second?.positionMm ?? 0) + (third?.positionMm ?? 0)) / 2;
    expect(
      new TargetWatch(setup).told(
        guideAt(setup, between, { calledDeg: second?.callDeg ?? null, calledMark: second?.mark ?? null }),
      ).deg,
    ).toBe(second?.callDeg);
  });
});

describe('degree by degree', () => {
  it('holds the figure called and shows the one that comes after it, all along the frame', () => {
    const setup = setupFor('degree by degree');
    const watch = new TargetWatch(setup);
    const { steps = [], stations } = setup;
    expect(steps.length).toBeGreaterThan(10);
    expect(watch.told(guideAt(setup, 0))).toMatchObject({
      board: 'step',
      deg: stations[0]?.callDeg,
      thenDeg: steps[0]?.callDeg,
    });
    for (const [index, step] of steps.entries()) {
      // Called a little before it comes due, as calls are.
      watch.told(guideAt(setup, step.positionMm - 15));
      const wanted = { board: 'step', deg: step.callDeg, thenDeg: steps[index + 1]?.callDeg ?? null };
      expect(watch.called({ deg: step.callDeg }), `step ${index}`).toMatchObject(wanted);
      expect(watch.told(guideAt(setup, step.positionMm)), `step ${index}`).toMatchObject(wanted);
    }
  });

  it('shows the figure in force when the page was opened after the call', () => {
    const setup = setupFor('degree by degree');
    const [, second, third] = setup.steps ?? [];
    const at = ((second?.positionMm ?? 0) + (third?.positionMm ?? 0)) / 2;
    expect(new TargetWatch(setup).told(guideAt(setup, at))).toMatchObject({
      deg: second?.callDeg,
      thenDeg: third?.callDeg,
    });
  });

  it('is mark by mark without a continuous position', () => {
    const setup = setupFor('degree by degree');
    const watch = new TargetWatch(setup);
    const [first, second] = setup.stations;
    const target = watch.called({ mark: second?.mark ?? 0, deg: second?.callDeg ?? 0 });
    expect(target).toMatchObject({ board: 'turn', deg: second?.callDeg });
    expect(wayOf(target)).toBe((second?.callDeg ?? 0) > (first?.callDeg ?? 0) ? 'more' : 'less');
  });
});
