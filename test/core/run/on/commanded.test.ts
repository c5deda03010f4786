/** What people say: start, stop, resume, end; and what falls silent. */
import { describe, it } from 'vitest';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { phrases } from '../../../../server/core/words/phrases.ts';
import { steadyFeed } from '../../../kit/feedRun.ts';
import { press, started } from '../../../kit/playRun.ts';
import { degreeSetup } from '../../../kit/runSetup.ts';
import { runSpec } from '../../../kit/runSpec.ts';

const { given } = runSpec();
const ended = (atMs: number): RunEvent => ({ kind: 'ended', atMs });
const stopped = (atMs: number, by: 'page' | 'restart' = 'page'): RunEvent => ({ kind: 'stopped', atMs, by });
const resumed = (atMs: number): RunEvent => ({ kind: 'resumed', atMs, withoutSound: true });
const lost: RunEvent = { kind: 'signal-lost', atMs: 9000, lifeline: 'travel', detail: 'Gone.' };

describe('a run that is ended', () => {
  it('has missed every mark that was not called, and none that was', () => {
    given(started(0), press(3000))
      .when(ended(9000))
      .gives({ kind: 'missed', mark: 3 }, { kind: 'missed', mark: 4 }, { kind: 'missed', mark: 5 })
      .leaves({ phase: 'finished' });
  });

  it('before its start has missed all of them', () => {
    given()
      .when(ended(100))
      .gives(...[1, 2, 3, 4, 5].map((mark) => ({ kind: 'missed', mark }) as const));
  });

  it('says no more of what was being said', () => {
    given(started(0), press(3000), press(6000), press(9000), press(12_000))
      .when(ended(12_500))
      .gives({ kind: 'cut-off' });
  });

  it('degree by degree misses no marks: there the figures between them are what is called', () => {
    runSpec(degreeSetup())
      .given(...steadyFeed(0.015, 100))
      .when(ended(20_000))
      .gives()
      .leaves({ phase: 'finished' });
  });
});

describe('a stop', () => {
  it('from a page is said to everyone at once, and what was being said is cut', () => {
    given(started(0), press(3000))
      .when(stopped(3200))
      .gives({ kind: 'cut-off' }, { kind: 'say', text: phrases.stopFeed, to: 'everyone', startsAtMs: 3200 })
      .leaves({ phase: 'stopped' });
  });

  it('once more changes nothing; before the start there is no feed to stop', () => {
    given(started(0), stopped(3000)).when(stopped(3500)).changesNothing();
    given().when(stopped(100)).isRefused('not-feeding');
  });

  it('of a lost run is said as well', () => {
    given(started(0), press(3000), lost)
      .when(stopped(20_000))
      .gives({ kind: 'say', text: phrases.stopFeed })
      .leaves({ phase: 'stopped' });
  });

  it('found after a restart is told, not said: nobody is there yet to hear', () => {
    given(started(0), press(3000))
      .when(stopped(60_000, 'restart'))
      .gives({ kind: 'tell', code: 'restarted', mark: 1 })
      .leaves({ phase: 'stopped', speaking: null });
  });
});

describe('a resume', () => {
  it('says the bevel being turned to again', () => {
    given(started(0), press(3000), stopped(5000))
      .when(resumed(9000))
      .gives({ kind: 'say', mark: 2, deg: 10 })
      .leaves({ phase: 'feeding' });
  });

  it('is for a run that is stopped or lost, and no other', () => {
    given(started(0)).when(resumed(1000)).isRefused('not-stopped');
    given().when(resumed(1000)).isRefused('not-stopped');
    given(started(0), ended(500)).when(resumed(1000)).isRefused('finished');
  });
});

describe('silence', () => {
  it('while feeding is said to everyone, and told with what to do', () => {
    given(started(0), press(3000))
      .when(lost)
      .gives({ kind: 'say', text: phrases.signalLost, to: 'everyone' }, { kind: 'tell', code: 'signal-lost', mark: 1 })
      .leaves({ phase: 'lost', lost: { by: 'travel', atMs: 9000 } });
  });

  it('of a run that stands is nothing', () => {
    given(started(0), stopped(3000)).when(lost).changesNothing();
    given().when(lost).changesNothing();
  });
});
