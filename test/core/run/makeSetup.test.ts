import { describe, expect, test } from 'vitest';
import { makeSetup } from '../../../server/core/run/makeSetup.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { expectClose } from '../../kit/close.ts';
import { planned } from '../../kit/planned.ts';

test.each([[0.8], [undefined]])(
  'what the saw takes at most goes from the job by the plan into the run: %s m/min',
  (feedMPerMin) => {
    const plan = planned(aJob({ saw: feedMPerMin === undefined ? {} : { feedMPerMin } }));
    expect(makeSetup(plan, 'pair', {}).sawFeedMPerMin).toBe(feedMPerMin);
  },
);

describe('the plan in the order of the run', () => {
  const shape = picked([0, 4], [900, 12], [1800, 2]);
  const plan = planned(aJob({ shape }));
  const setup = makeSetup(plan, 'pair', {});

  test('begins at the end that leads, and lengths count from its mark', () => {
    expect(plan.leads).toBe('head');
    const order = plan.marks.toReversed();
    expect(setup.stations.map(({ mark }) => mark)).toEqual(order.map(({ mark }) => mark));
    const lastMm = order[0]?.stockMm ?? Number.NaN;
    for (const [i, { positionMm, tiltDeg, callDeg }] of setup.stations.entries()) {
      const mark = order[i];
      expectClose(positionMm, lastMm - (mark?.stockMm ?? Number.NaN), 1e-9, 'position');
      expectClose(tiltDeg, plan.hand * (mark?.sawnDeg ?? Number.NaN), 1e-12, 'tilt');
      expect(callDeg).toBe(mark?.callDeg);
    }
  });

  test('has the tilt from mark to mark and closer, each place once', () => {
    const { positionsMm } = setup.profile;
    const last = setup.stations.at(-1)?.positionMm;
    expect(positionsMm[0]).toBe(0);
    expect(positionsMm.at(-1)).toBe(last);
    expect(positionsMm.length).toBeGreaterThan(setup.stations.length);
    for (const [i, mm] of positionsMm.entries()) if (i > 0) expect(mm).toBeGreaterThan(positionsMm[i - 1] ?? mm);
    for (const { positionMm } of setup.stations) expect(positionsMm).toContain(positionMm);
  });

  test('has shorter words only where a call names its mark too', () => {
    expect(setup.shortTexts).toBeUndefined();
    const named = makeSetup(planned(aJob({ shape, voice: { form: 'mark and angle' } })), 'pair', {});
    expect(named.shortTexts).toHaveLength(named.stations.length);
    expect(named.callTexts[0]).toContain(named.shortTexts?.[0] ?? 'nothing');
  });

  test('has figures of half degrees only where they are called', () => {
    expect(setup.steps).toBeUndefined();
    expect(makeSetup(plan, 'pair', {}, 'degree by degree').steps?.length).toBeGreaterThan(10);
  });
});
