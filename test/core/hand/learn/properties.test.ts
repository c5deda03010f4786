import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { HandRecord } from '../../../../server/core/hand/learn/handRecord.ts';
import { learnHand } from '../../../../server/core/hand/learn/learnHand.ts';
import { usualHand } from '../../../../server/core/hand/traits.ts';
import { expectClose } from '../../../kit/close.ts';
import { demoPlan } from '../../../kit/demoPlan.ts';
import { holds } from '../../../kit/holds.ts';
import { modelledRecord } from '../../../kit/modelledHand.ts';

const plan = await demoPlan();
const records = [1, 2, 3, 4].map((seed) =>
  modelledRecord({ plan, traits: usualHand(plan.crew, plan.saw.degreesPerTurn, plan.saw.readoutDeg), seed }),
);
const anyRecord = fc.constantFrom(...records);

function sameLearnt(one: HandRecord, other: HandRecord): void {
  const [a, b] = [learnHand(one), learnHand(other)];
  expect(b.calls).toBe(a.calls);
  for (const field of ['reactionS', 'turnsPerS'] as const) {
    const [x, y] = [a[field], b[field]];
    if (!x.ok || !y.ok) {
      expect(y).toEqual(x);
      continue;
    }
    expect(y.estimate.turns).toBe(x.estimate.turns);
    expectClose(y.estimate.median, x.estimate.median, 1e-4, field);
    expectClose(y.estimate.error, x.estimate.error, 1e-4, `error of ${field}`);
    expectClose(y.estimate.spread, x.estimate.spread, 1e-3, `spread of ${field}`);
  }
}

describe('what is learnt', () => {
  it('is the same at any time of any day', () => {
    const shifted = (record: HandRecord, byMs: number): HandRecord => ({
      ...record,
      bevels: record.bevels.map((bevel) => ({
        ...bevel,
        startsAtMs: bevel.startsAtMs + byMs,
        overMs: bevel.overMs + byMs,
      })),
      heldAtMs: record.heldAtMs.map((atMs) => atMs + byMs),
      tilts: record.tilts.map(({ atMs, deg }) => ({ atMs: atMs + byMs, deg })),
    });
    holds(
      fc.property(anyRecord, fc.integer({ min: 0, max: 2e12 }), (record, byMs) =>
        sameLearnt(record, shifted(record, byMs)),
      ),
      { numRuns: 30 },
    );
  });

  it('is the same whatever the sensor is off by', () => {
    holds(
      fc.property(anyRecord, fc.double({ min: -20, max: 20, noNaN: true }), (record, offsetDeg) =>
        sameLearnt(record, {
          ...record,
          tilts: record.tilts.map(({ atMs, deg }) => ({ atMs, deg: deg + offsetDeg })),
        }),
      ),
      { numRuns: 30 },
    );
  });

  it('is the same for a frame of the other hand', () => {
    for (const record of records)
      sameLearnt(record, {
        ...record,
        bevels: record.bevels.map((bevel) => ({ ...bevel, toDeg: -bevel.toDeg })),
        tilts: record.tilts.map(({ atMs, deg }) => ({ atMs, deg: -deg })),
      });
  });

  it('is as many turns a second as the wheel has degrees to a turn', () => {
    for (const record of records) {
      const { turnsPerS } = learnHand(record);
      const halved = learnHand({ ...record, degreesPerTurn: 2 * record.degreesPerTurn }).turnsPerS;
      if (!turnsPerS.ok || !halved.ok) throw new Error('nothing learnt');
      expectClose(halved.estimate.median, turnsPerS.estimate.median / 2, 1e-9, 'turns a second');
    }
  });

  it('is figures or a refusal, never a throw, of any record', () => {
    const bevel = fc.record({
      toDeg: fc.integer({ min: -5, max: 45 }),
      startsAtMs: fc.integer({ min: 0, max: 20_000 }),
      overMs: fc.integer({ min: 0, max: 21_000 }),
      isHeardOut: fc.boolean(),
    });
    const tilt = fc.record({
      atMs: fc.integer({ min: 0, max: 20_000 }),
      deg: fc.double({ min: -180, max: 180, noNaN: true }),
    });
    const anything = fc.record({
      bevels: fc.array(bevel, { maxLength: 12 }).map((all) => all.sort((a, b) => a.startsAtMs - b.startsAtMs)),
      heldAtMs: fc.array(fc.integer({ min: 0, max: 20_000 }), { maxLength: 3 }).map((all) => all.sort((a, b) => a - b)),
      tilts: fc.array(tilt, { maxLength: 200 }).map((all) => all.sort((a, b) => a.atMs - b.atMs)),
      turns: fc.constant('at each call' as const),
      degreesPerTurn: fc.double({ min: 0.1, max: 20, noNaN: true }),
      pageWheelTurnsPerS: fc.option(fc.double({ min: 0.1, max: 5, noNaN: true })),
    });
    holds(
      fc.property(anything, (record) => {
        const { reactionS, turnsPerS } = learnHand(record);
        for (const each of [reactionS, turnsPerS])
          if (each.ok) {
            const { median, error, spread, turns } = each.estimate;
            expect([median, error, spread].every((figure) => Number.isFinite(figure) && figure >= 0)).toBe(true);
            expect(turns).toBeGreaterThanOrEqual(5);
          } else expect(each.message).not.toBe('');
      }),
      { numRuns: 300 },
    );
  });
});
