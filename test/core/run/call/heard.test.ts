import { describe, expect, it } from 'vitest';
import type { Heard, Lifeline, RunEvent } from '../../../../server/core/run/engine/events.ts';
import { fold } from '../../../../server/core/run/fold.ts';
import { isStillInTime } from '../../../../server/core/run/on/heardAgain.ts';
import { phrases } from '../../../../server/core/words/phrases.ts';
import { press, scan, started } from '../../../kit/playRun.ts';
import { smallSetup } from '../../../kit/runSetup.ts';
import { runSpec } from '../../../kit/runSpec.ts';

const { given } = runSpec();
const heard = (atMs: number, hears: Heard): RunEvent => ({ kind: 'heard-by', atMs, hears });
const lost = (atMs: number, lifeline: Lifeline): RunEvent => ({ kind: 'signal-lost', atMs, lifeline, detail: 'Gone.' });
const resumed = (atMs: number, withoutSound = false): RunEvent => ({ kind: 'resumed', atMs, withoutSound });
const startedUnheard: RunEvent = { kind: 'started', atMs: 0, withoutSound: true };
/** A run that is heard, one mark in, and lost. */
const heardAndLost = (by: Lifeline): RunEvent[] => [heard(0, 'bevels'), started(0), press(5000), lost(9000, by)];
const earGone = [...heardAndLost('sound').slice(0, 3), heard(9000, 'nobody'), lost(9000, 'sound')];

describe('a lost run goes on by a press', () => {
  it('where it was the place that was lost, and somebody hears', () => {
    given(...heardAndLost('travel'))
      .when(press(15_000))
      .gives({ kind: 'say', mark: 3 })
      .leaves({ phase: 'feeding', reached: 2 });
  });
  it('not where the ear was lost, whoever has come back since', () => {
    for (const gesture of ['next', 'back', 'again'] as const) {
      given(...earGone)
        .when(press(15_000, gesture))
        .isRefused('not-feeding');
      given(...earGone, heard(12_000, 'bevels'))
        .when(press(15_000, gesture))
        .isRefused('not-feeding');
    }
    given(...earGone)
      .when(scan(15_000, 2))
      .isRefused('not-feeding');
  });
  it('not where the place was lost and nobody hears any more, or stops only', () => {
    for (const hears of ['nobody', 'stops'] as const)
      given(...heardAndLost('travel'), heard(10_000, hears))
        .when(press(15_000))
        .isRefused('not-feeding');
  });
  it('whatever was lost, where it was started without sound or with nobody listening', () => {
    for (const start of [startedUnheard, started(0)])
      given(start, lost(9000, 'sound')).when(press(15_000)).leaves({ phase: 'feeding', reached: 1 });
  });
  it('and so too after a stop and a resume, where it was begun without sound', () => {
    given(startedUnheard, press(3000, 'stop'), resumed(5000), lost(9000, 'sound'))
      .when(press(15_000))
      .leaves({ phase: 'feeding', isWithoutSound: true });
  });
  it('but never by a press that waited in a server that stood still', () => {
    given(startedUnheard, lost(9000, 'server')).when(press(9100)).isRefused('not-feeding');
    given(startedUnheard, lost(9000, 'server')).when(press(10_500)).leaves({ phase: 'feeding' });
    given(...heardAndLost('server'))
      .when(press(15_000))
      .isRefused('not-feeding');
  });
  it('and a stop is taken always', () => {
    given(...earGone)
      .when(press(15_000, 'stop'))
      .gives({ kind: 'say', text: phrases.stopFeed })
      .leaves({ phase: 'stopped' });
  });
});

describe('resume', () => {
  it('is refused where less is heard than was relied on, unless a person says "without sound"', () => {
    given(...earGone)
      .when(resumed(15_000))
      .isRefused('nobody-hears');
    given(...earGone)
      .when(resumed(15_000, true))
      .gives({ kind: 'say', mark: 2 })
      .leaves({ phase: 'feeding', isWithoutSound: true });
    given(...earGone, heard(12_000, 'bevels'))
      .when(resumed(15_000))
      .leaves({ phase: 'feeding', isWithoutSound: false });
  });
  it('and so after a stop or a restart in which the ears went', () => {
    const stopped = [heard(0, 'bevels'), started(0), press(3000, 'stop'), heard(8000, 'nobody')];
    given(...stopped)
      .when(resumed(15_000))
      .isRefused('nobody-hears');
    given(...stopped, resumed(15_000, true), press(20_000, 'stop'))
      .when(resumed(25_000))
      .leaves({ phase: 'feeding' });
  });
  it('is taken in a run that nobody ever heard, and in one that was heard by the stops alone', () => {
    given(started(0), press(3000, 'stop')).when(resumed(15_000)).leaves({ phase: 'feeding' });
    given(heard(0, 'stops'), started(0), press(3000, 'stop')).when(resumed(15_000)).leaves({ phase: 'feeding' });
  });
  it('needs the ears of those who joined in mid-run too', () => {
    given(started(0), heard(1000, 'bevels'), press(3000, 'stop'), heard(4000, 'nobody'))
      .when(resumed(15_000))
      .isRefused('nobody-hears');
  });
});

it('takes the last mark back only while somebody hears what is called then', () => {
  const over = [heard(0, 'bevels'), started(0), ...[3, 6, 9, 12, 15].map((s) => press(s * 1000))];
  given(...over)
    .when(press(18_000, 'back'))
    .leaves({ phase: 'feeding' });
  given(...over, heard(17_000, 'nobody'))
    .when(press(18_000, 'back'))
    .isRefused('not-feeding');
});

describe('"stop feed, hold the tilt"', () => {
  it('is heard out before the bevel of a press that goes on, and of a resume', () => {
    given(...heardAndLost('travel'))
      .when(press(9400))
      .gives({ kind: 'say', mark: 3, startsAtMs: 10_000 });
    given(started(0), press(3000, 'stop')).when(resumed(3300)).gives({ kind: 'say', mark: 1, startsAtMs: 4000 });
  });
  it('is heard out though the run ends or is finished by a press', () => {
    const nearEnd = [started(0), ...[3, 6, 9, 12].map((s) => press(s * 1000)), lost(14_000, 'travel')];
    given(...nearEnd)
      .when(press(14_500))
      .gives({ kind: 'say', text: phrases.runDone, startsAtMs: 15_000 });
    given(...nearEnd)
      .when({ kind: 'ended', atMs: 14_500 })
      .gives()
      .leaves({ phase: 'finished' });
  });
  it('gives way to another order alone, and what waited for its end then goes too', () => {
    given(...heardAndLost('travel'), press(9400))
      .when(press(9600, 'stop'))
      .gives(
        { kind: 'cut-off', id: 'c3' },
        { kind: 'cut-off', id: 'c4' },
        { kind: 'say', text: phrases.stopFeed, startsAtMs: 9600 },
      );
  });
});

describe('a call that nobody heard', () => {
  const unheard = (atMs: number): RunEvent => ({ kind: 'unheard', atMs, call: 'c2' });
  const scans = [heard(0, 'bevels'), started(0), scan(10_000, 1), scan(16_000, 2)];
  const dueAtMs = 18_500;
  it('is said again on the pedal, where nothing tells how much time there is', () => {
    given(heard(0, 'bevels'), started(0), press(5000))
      .when(unheard(5800))
      .gives({ kind: 'cut-off', id: 'c2' }, { kind: 'say', mark: 2, startsAtMs: 5800 });
  });
  it('is said again while it can be over before its mark, else the ear was away too long', () => {
    const calledAt = [...scans, { kind: 'woken', atMs: dueAtMs } as const];
    given(...calledAt)
      .when(unheard(dueAtMs + 300))
      .leaves({ phase: 'feeding', turningTo: 2 });
    given(...calledAt)
      .when(unheard(21_900))
      .leaves({ phase: 'lost', lost: { by: 'sound', atMs: 21_900 } });
  });
  it('is waited for as long as it would be over in time, said again at that moment', () => {
    const state = fold(smallSetup(), [...scans, { kind: 'woken', atMs: dueAtMs }]);
    expect([dueAtMs + 300, 21_900].map((atMs) => isStillInTime(state, atMs))).toEqual([true, false]);
    const onPedal = fold(smallSetup(), [heard(0, 'bevels'), started(0), press(5000)]);
    expect(isStillInTime(onPedal, 5800)).toBe(null);
    const notBegun = fold(smallSetup(), [heard(0, 'bevels'), started(0)]);
    expect(isStillInTime(notBegun, 800)).toBe(null);
  });
  it('is nothing in a run that does not feed', () => {
    given(started(0), press(3000, 'stop')).when(unheard(4000)).changesNothing();
  });
});
