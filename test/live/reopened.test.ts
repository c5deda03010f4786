/** What a run shows is the fold of its record: whoever opens it again sees the same, but for what starting again itself changes. */
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it, test } from 'vitest';
import { openJournal } from '../../server/journal/openJournal.ts';
import { openLiveRun } from '../../server/live/liveRun.ts';
import type { FeedFrame } from '../../server/wire/message/feedFrame.ts';
import type { Listener, RunView } from '../../server/wire/message/messages.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { handOwnTime } from '../kit/handOwnTime.ts';
import { smallSetup } from '../kit/runSetup.ts';

const WHEEL: Listener = { id: 'w', label: 'Wheel', role: 'wheel', hearing: 'confirmed' };

function house() {
  const journal = openJournal({ file: join(freeDataDir(), 'journal.sqlite') });
  const stored = { ...madeUpRun('r1', 1_000_000), setup: smallSetup({ fastestMPerMin: 3 }) };
  journal.keepRun(stored);
  const clock = { atMs: 1_000_000 };
  const open = () =>
    openLiveRun(
      {
        journal,
        nowMs: () => clock.atMs,
        haveSeen: () => undefined,
        report: console.error,
        ownTime: handOwnTime().ownTime,
      },
      journal.run('r1') ?? stored,
    );
  return { clock, open, close: () => journal.close() };
}
type Live = ReturnType<ReturnType<typeof house>['open']>;

/** What a restart leaves alone: who listens, and what the record has grown by, are another matter. */
const lasting = ({ notice, square, mark, nextMark, nextDeg, state, isPlaceKnown }: RunView) => ({
  notice: notice?.code ?? null,
  square,
  mark,
  nextMark,
  nextDeg,
  state,
  isPlaceKnown,
});

function reopened(live: Live, open: () => Live): RunView {
  live.close();
  const again = open();
  const view = again.view();
  again.close();
  return view;
}

it('what the readout showed with the blade square', async () => {
  const { open } = house();
  const live = open();
  await live.squared(0);
  expect(live.view().square).toMatchObject({ seenDeg: 0 });
  expect(lasting(reopened(live, open))).toEqual(lasting(live.view()));
});

it('a call that could not be played, until a bevel is called again or the run is over', async () => {
  const { clock, open } = house();
  const live = open();
  await live.command('start-without-sound');
  live.unplayed('page', { id: 'c1', reason: '300 ms late' });
  await live.command('stop-feed');
  expect(live.view()).toMatchObject({ state: 'stopped', notice: { code: 'call-missed' } });
  expect(lasting(reopened(live, open))).toEqual(lasting(live.view()));
  const again = open();
  expect(again.view().notice?.code).toBe('call-missed');
  clock.atMs += 1000;
  await again.command('resume-without-sound');
  expect(again.view().notice).toBeNull();
  again.close();
});

it('a press that came too soon does not outlive the stop that a restart is; why it stands comes first', async () => {
  const { clock, open } = house();
  const live = open();
  await live.command('start-without-sound');
  clock.atMs += 5000;
  await live.reading('foot', { kind: 'pedal' });
  live.unplayed('page', { id: 'c1', reason: '300 ms late' });
  clock.atMs += 250;
  await live.reading('foot', { kind: 'pedal' });
  expect(live.view().notice?.code).toBe('too-soon');
  expect(reopened(live, open)).toMatchObject({ state: 'stopped', notice: { code: 'restarted' } });
});

it('what was missed is not told any more once the last mark is at the blade', async () => {
  const { clock, open } = house();
  const live = open();
  await live.command('start-without-sound');
  for (let mark = 0; mark < live.view().marks; mark += 1) {
    live.unplayed('page', { id: 'any', reason: 'late' });
    clock.atMs += 20_000;
    await live.reading('foot', { kind: 'pedal' });
  }
  expect(live.view()).toMatchObject({ state: 'finished', notice: null });
  live.close();
});

test('at any moment of any run: stopped, it shows the same before and after a restart', async () => {
  const deed = fc.oneof(
    fc.record({ kind: fc.constant('press' as const), afterMs: fc.integer({ min: 50, max: 20_000 }) }),
    fc.record({ kind: fc.constant('unplayed' as const), id: fc.constantFrom('r1-1', 'r1-2', 'other') }),
    fc.record({ kind: fc.constant('ear' as const), isThere: fc.boolean() }),
    fc.record({ kind: fc.constant('stop' as const) }),
    fc.record({ kind: fc.constant('resume' as const) }),
    fc.record({ kind: fc.constant('squared' as const) }),
    fc.record({ kind: fc.constant('start' as const) }),
  );
  await fc.assert(
    fc.asyncProperty(fc.array(deed, { maxLength: 25 }), async (deeds) => {
      const { clock, open, close } = house();
      const live = open();
      for (const each of deeds) {
        clock.atMs += 40;
        if (each.kind === 'press') {
          clock.atMs += each.afterMs;
          await live.reading('foot', { kind: 'pedal' } satisfies FeedFrame);
        } else if (each.kind === 'unplayed') live.unplayed('p', { id: each.id, reason: 'late' });
        else if (each.kind === 'ear') live.hearing('p', each.isThere ? WHEEL : null);
        else if (each.kind === 'squared') await live.squared(0);
        else if (each.kind === 'start') await live.command('start-without-sound');
        else await live.command(each.kind === 'stop' ? 'stop-feed' : 'resume-without-sound');
      }
      if (live.isFeeding()) await live.command('stop-feed');
      const before = live.view();
      // A lost run stands stopped after a restart, and what the pedal's trial told is nobody's record.
      if (before.state !== 'lost' && before.notice?.code !== 'signal-seen')
        expect(lasting(reopened(live, open))).toEqual(lasting(before));
      else live.close();
      close();
    }),
    { numRuns: 60 },
  );
});
