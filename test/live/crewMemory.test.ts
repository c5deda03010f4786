import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { usualHand } from '../../server/core/hand/traits.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import { createCrew } from '../../server/live/crewMemory.ts';
import { createLiveRuns } from '../../server/live/liveRuns.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { handOwnTime } from '../kit/handOwnTime.ts';
import { type ModelledRun, modelledEntries, setupOf } from '../kit/modelledHand.ts';

const demo = await demoPlan();
const traits = usualHand({ reactionS: 0.5, turnsPerS: 0.6 }, demo.saw.degreesPerTurn, demo.saw.readoutDeg);

/** A crew on a real journal with real runs, each gone through by a modelled hand. */
function house() {
  const journal = openJournal({ file: join(freeDataDir(), 'journal.sqlite') });
  let nowMs = 1000;
  const clock = (): number => {
    nowMs += 1;
    return nowMs;
  };
  const runs = createLiveRuns({
    journal,
    nowMs: clock,
    haveSeen: () => {},
    onOpened: () => {},
    report: () => {},
    ownTime: handOwnTime().ownTime,
  });
  const crew = createCrew({
    journal,
    run: runs.get,
    nowMs: clock,
    onForgotten: (name) => runs.forgetTiltHand(name),
  });
  onTestFinished(() => {
    runs.close();
    journal.close();
  });
  const make = (run: string, model: Partial<ModelledRun> = {}, plan: Plan = demo, isWhole = true): void => {
    journal.keepRun({ ...madeUpRun(run, 0), plan, setup: setupOf(plan, model.routine) });
    const entries = modelledEntries({ plan, traits, seed: 1, ...model });
    journal.append(run, 1, isWhole ? entries : entries.slice(0, 400));
  };
  return { crew, runs, make };
}

it('tells what a run says of its tilt hand, and keeps nothing by itself', () => {
  const { crew, make } = house();
  make('r1');
  const hand = crew.handOf('r1');
  expect(hand).toMatchObject({ calls: 13, isFinished: true, keptFor: null, reactionS: { ok: true } });
  expect(hand?.planned.reactionS).toBeGreaterThan(hand?.reactionS.ok ? hand.reactionS.estimate.median : 9);
  expect(hand?.planned.turnsPerS).toBeLessThan(hand?.turnsPerS.ok ? hand.turnsPerS.estimate.median : 0);
  expect(crew.members()).toEqual([]);
  expect(crew.handOf('none')).toBeUndefined();
});

it('takes the runs of one person together, however the name is written', () => {
  const { crew, make } = house();
  const rest = [2, 3].map((seed) => `r${seed}`);
  for (const seed of [1, 2, 3]) make(`r${seed}`, { seed });
  const one = crew.keep({ name: 'Kt', run: 'r1' });
  for (const run of rest) crew.keep({ name: 'KT', run });
  const [all, ...more] = crew.members();
  expect(more).toEqual([]);
  expect(all).toMatchObject({ name: 'Kt', runs: ['r1', 'r2', 'r3'] });
  expect(crew.member('kt')).toEqual(all);
  if (one?.ok !== true) throw new Error('not kept');
  expect(all?.found.reactionS?.turns).toBeGreaterThan(2 * (one.member.found.reactionS?.turns ?? 99));
  expect(all?.found.reactionS?.error).toBeLessThan(one.member.found.reactionS?.error ?? 0);
  // Kept again, a run counts once.
  crew.keep({ name: 'KT', run: 'r2' });
  expect(crew.members()).toMatchObject([{ runs: ['r1', 'r3', 'r2'] }]);
});

it('gives a run that was kept for the wrong person to the right one, and nothing is left of the wrong one', () => {
  const { crew, make } = house();
  make('r1');
  crew.keep({ name: 'BW', run: 'r1' });
  crew.keep({ name: 'KT', run: 'r1' });
  expect(crew.members().map(({ name }) => name)).toEqual(['KT']);
  expect(crew.handOf('r1')?.keptFor).toBe('KT');
});

it('refuses a run that is not over, one that tells nothing, and one that there is not', () => {
  const { crew, make } = house();
  make('going', {}, demo, false);
  make('followed', { routine: 'following' });
  expect(crew.keep({ name: 'KT', run: 'going' })).toMatchObject({ ok: false, error: { code: 'not-finished' } });
  expect(crew.keep({ name: 'KT', run: 'followed' })).toMatchObject({
    ok: false,
    error: { code: 'nothing-learnt', message: expect.stringContaining('The display was followed') },
  });
  expect(crew.keep({ name: 'KT', run: 'none' })).toBeUndefined();
  expect(crew.members()).toEqual([]);
});

it('forgets a person, in the runs that are open too', () => {
  const { crew, runs, make } = house();
  make('r1');
  make('r2', { seed: 2 }, { ...demo, crew: { ...demo.crew, reactionS: 0.7, tiltHand: 'KT', learnt: ['reactionS'] } });
  crew.keep({ name: 'KT', run: 'r1' });
  const open = runs.get('r2');
  expect(open?.plan.crew.tiltHand).toBe('KT');
  expect(crew.forget('kt')).toBe(true);
  expect(open?.plan.crew).toEqual({ ...demo.crew, reactionS: 0.7 });
  expect(crew.members()).toEqual([]);
  expect(crew.handOf('r1')?.keptFor).toBeNull();
  expect(crew.forget('KT')).toBe(false);
});
