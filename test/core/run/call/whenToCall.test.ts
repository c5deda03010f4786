import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { callWhatIsDue, firstInTime, nextDueMs } from '../../../../server/core/run/call/whenToCall.ts';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { phrases } from '../../../../server/core/words/phrases.ts';
import {
  arrivesMs,
  callsOf,
  FEED_BEGINS_MS,
  type Fed,
  feedRun,
  missedOf,
  saidOf,
  startedAt0,
  steadyFeed,
  toldOf,
} from '../../../kit/feedRun.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

const turnMs = (mark: number): number => (mark === 4 ? 1000 : 2000) / 1.4;
const overMs = ({ startsAtMs, durationMs }: { startsAtMs: number; durationMs: number }): number =>
  startsAtMs + durationMs;
/** From the end of the words to the mark, for every call but the first. */
const leadsOf = (fed: Fed, mmPerMs: number) =>
  callsOf(fed)
    .slice(1)
    .map((call) => ({
      mark: call.mark ?? 0,
      leadMs: arrivesMs(mmPerMs, 150 * ((call.mark ?? 0) - 1)) - overMs(call),
    }));

describe('the lead on a count of travel', () => {
  it('is the reaction and the turn of the wheel, within 60 ms at any steady feed that leaves time for them', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.045, noNaN: true }), (mmPerMs) => {
        const leads = leadsOf(feedRun(smallSetup(), steadyFeed(mmPerMs, 601)), mmPerMs);
        expect(leads.map(({ mark }) => mark)).toEqual([2, 3, 4, 5]);
        for (const { mark, leadMs } of leads) {
          expect(leadMs).toBeGreaterThanOrEqual(350 + turnMs(mark));
          expect(leadMs).toBeLessThanOrEqual(350 + turnMs(mark) + 60);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('is longer by what the slowest ear hears late', () => {
    const late: RunEvent = { kind: 'heard-after', atMs: 100, delayMs: 180 };
    const [first, ...rest] = steadyFeed(0.04, 601);
    const prompt = leadsOf(feedRun(smallSetup(), steadyFeed(0.04, 601)), 0.04);
    const fed = feedRun(smallSetup(), [first ?? startedAt0, late, ...rest]);
    for (const [index, { leadMs }] of leadsOf(fed, 0.04).entries())
      expect(leadMs - (prompt[index]?.leadMs ?? 0)).toBeCloseTo(180, -1);
  });

  it('is the same whether readings come at once or late and say how old they are', () => {
    const aged = [...steadyFeed(0.04, 601)].map((event) =>
      event.kind === 'moved' ? { ...event, atMs: event.atMs + 200, ageMs: 200 } : event,
    );
    const prompt = leadsOf(feedRun(smallSetup(), steadyFeed(0.04, 601)), 0.04);
    const late = leadsOf(feedRun(smallSetup(), aged), 0.04);
    for (const [index, { leadMs }] of late.entries()) expect(leadMs).toBeCloseTo(prompt[index]?.leadMs ?? 0, -1.4);
  });
});

describe('too fast', () => {
  const spoken = { 'angle 8': 400, 'angle 10': 400, 'angle 12': 400, 'angle 11': 400, 'angle 9': 400 };
  const withShort = smallSetup({
    shortTexts: Object.keys(spoken),
    durationsMs: { ...smallSetup().durationsMs, ...spoken },
  });

  it('fewer words are said where all of them would leave the hand too little time', () => {
    // 150 mm in 2.3 s: all the words need 2.8, the short ones 2.2.
    const said = callsOf(feedRun(withShort, steadyFeed(0.065, 601))).map(({ text }) => text);
    expect(said).toEqual(['bevel 8', 'angle 10', 'angle 12', 'bevel 11', 'angle 9']);
    const slow = callsOf(feedRun(withShort, steadyFeed(0.04, 601))).map(({ text }) => text);
    expect(slow).toEqual(smallSetup().callTexts);
  });

  it('of several wordings the one with most words that leaves the hand its time, the fewest where none does', () => {
    const fewest = Object.fromEntries([8, 10, 12, 11, 9].map((deg) => [`${deg}`, 200]));
    const setup = smallSetup({
      shortTexts: withShort.shortTexts ?? [],
      shortestTexts: [8, 10, 12, 11, 9].map(String),
      durationsMs: { ...withShort.durationsMs, ...fewest },
    });
    const said = (mmPerMs: number): readonly string[] =>
      callsOf(feedRun(setup, steadyFeed(mmPerMs, 601))).map(({ text }) => text);
    expect(said(0.04)).toEqual(smallSetup().callTexts);
    expect(said(0.065)).toEqual(['bevel 8', 'angle 10', 'angle 12', 'bevel 11', 'angle 9']);
    expect(said(0.073)).toEqual(['bevel 8', '10', '12', 'angle 11', '9']);
  });

  it('a call is torn off at its own mark, is recorded as missed, and the next one goes on', () => {
    // The feed doubles while the call for mark 3 is being said.
    const events: RunEvent[] = [startedAt0];
    let mm = 0;
    for (let atMs = FEED_BEGINS_MS; mm <= 601; atMs += 50) {
      events.push({ kind: 'moved', atMs, mm });
      mm += mm > 190 && mm < 320 ? 20 : 2;
    }
    const fed = feedRun(smallSetup(), events);
    expect(missedOf(fed)).toContain(3);
    expect(fed.effects.some(({ effect }) => effect.kind === 'cut-off')).toBe(true);
    for (const { mark, ...call } of callsOf(fed)) if (mark === 4 || mark === 5) expect(overMs(call)).toBeGreaterThan(0);
    expect(fed.state.phase).toBe('finished');
  });

  it('the sawyer is asked to ease the feed where the coming turns cannot be in time, and not over and over', () => {
    const setup = smallSetup({ crew: { reactionS: 0.35, turnsPerS: 0.35, feedMPerMin: 3 } });
    const fed = feedRun(setup, steadyFeed(0.05, 601));
    expect(saidOf(fed).filter((text) => text === phrases.easeFeed).length).toBeGreaterThanOrEqual(1);
    expect(saidOf(fed).filter((text) => text === phrases.easeFeed).length).toBeLessThanOrEqual(2);
    expect(toldOf(fed)).toContain('too-fast');
    expect(toldOf(feedRun(smallSetup(), steadyFeed(0.05, 601)))).toEqual([]);
  });
});

describe('what is due', () => {
  const LATER_MS = 60_000;
  /** 10 mm behind mark 2; the call for mark 3 is due 29 mm farther on. */
  const counting = () => feedRun(smallSetup(), steadyFeed(0.04, 160)).state;

  it('is nothing while the run is stopped, lost or over, nor where presses alone tell the place', () => {
    const state = counting();
    expect(nextDueMs(state, 0)).not.toBeNull();
    for (const phase of ['ready', 'stopped', 'lost', 'finished'] as const) {
      expect(nextDueMs({ ...state, phase }, 0)).toBeNull();
      expect(callWhatIsDue({ ...state, phase }, LATER_MS)[1]).toEqual([]);
    }
    const pressed = { ...state, reckoning: state.reckoning && { ...state.reckoning, by: 'press' as const } };
    expect(nextDueMs(pressed, 0)).toBeNull();
    expect(nextDueMs({ ...state, reckoning: null }, 0)).toBeNull();
  });

  it('waits for a count that is about to begin, where the first mark is read in a routine that goes by one', () => {
    const read: RunEvent = { kind: 'scanned', mark: 1, offsetMm: 0, atMs: FEED_BEGINS_MS };
    const dueMs = (routine: 'mark by mark' | 'following') =>
      nextDueMs(feedRun(smallSetup({ routine }), [startedAt0]).state, 0) ??
      feedRun(smallSetup({ routine }), [startedAt0, read], FEED_BEGINS_MS + 2000).effects.find(
        ({ effect }) => effect.kind === 'say' && effect.call.mark === 2,
      )?.atMs;
    expect(dueMs('mark by mark')).toBe(FEED_BEGINS_MS);
    expect(dueMs('following')).toBe(FEED_BEGINS_MS + 500);
  });

  it('is said in the fewest words where no wording leaves the hand its time, and only where they are over by the mark', () => {
    const degs = [8, 10, 12, 11, 9];
    const setup = smallSetup({
      shortTexts: degs.map((deg) => `angle ${deg}`),
      shortestTexts: degs.map(String),
      durationsMs: Object.fromEntries(
        degs.flatMap(
          (deg) =>
            [
              [`bevel ${deg}`, 1000],
              [`angle ${deg}`, 400],
              [`${deg}`, 200],
            ] as const,
        ),
      ),
    });
    const state = feedRun(setup, steadyFeed(0.05, 200)).state;
    const { reckoning } = state;
    if (reckoning === null) throw new Error('no place');
    const at = (positionMm: number) =>
      firstInTime(
        { ...state, reckoning: { ...reckoning, positionMm, speedMmPerMs: 0.05, speedSdMmPerMs: 0, uncertaintyMm: 0 } },
        2,
        reckoning.atMs,
      );
    // Mark 3 lies at 300 mm: 11 mm before it there are 220 ms, 9 mm before it 180.
    expect(at(289)).toEqual({ index: 2, text: '12' });
    expect(at(291)).toMatchObject({ index: 3 });
  });
});

describe('a stop in the middle of an interval', () => {
  it('the bevel said again at the resume is torn off where its mark comes before the words are over', () => {
    const events: RunEvent[] = [...steadyFeed(0.05, 285)];
    const stopMs = events.at(-1)?.atMs ?? 0;
    events.push({ kind: 'stopped', by: 'page', atMs: stopMs + 10 }, { kind: 'resumed', atMs: stopMs + 3000 });
    for (let step = 1; step < 140; step += 1)
      events.push({ kind: 'moved', atMs: stopMs + 3100 + 50 * step, mm: Math.round((285 + 2.5 * step) * 10) / 10 });
    const fed = feedRun(smallSetup(), events);
    const again = callsOf(fed).filter(({ mark }) => mark === 3);
    expect(again).toHaveLength(2);
    const cutOff = fed.effects.find(({ effect }) => effect.kind === 'cut-off' && effect.id === again[1]?.id);
    // 15 mm before the mark at the resume: it comes after some 0.4 s, the words take a second.
    expect(cutOff?.atMs).toBeLessThanOrEqual(stopMs + 3100 + 400);
    // It had been heard before the stop: nothing is missed.
    expect(missedOf(fed)).toEqual([]);
  });
});

describe('a mistaken last mark', () => {
  it('is taken back: the run goes on before it', () => {
    const presses = [1, 2, 3, 4, 5].map((n): RunEvent => ({ kind: 'pressed', gesture: 'next', atMs: 3000 * n }));
    const back: RunEvent = { kind: 'pressed', gesture: 'back', atMs: 16_000 };
    expect(feedRun(smallSetup(), [startedAt0, ...presses]).state.phase).toBe('finished');
    const fed = feedRun(smallSetup(), [startedAt0, ...presses, back]);
    expect(fed.state).toMatchObject({ phase: 'feeding', reached: 4 });
    expect(callsOf(fed).at(-1)).toMatchObject({ mark: 5, deg: 9 });
  });

  it('that was scanned, as well', () => {
    const scans = [1, 2, 5].map((mark, n): RunEvent => ({ kind: 'scanned', mark, offsetMm: 0, atMs: 3000 * (n + 1) }));
    const back: RunEvent = { kind: 'pressed', gesture: 'back', atMs: 10_000 };
    const fed = feedRun(smallSetup(), [startedAt0, ...scans, back]);
    expect(fed.state).toMatchObject({ phase: 'feeding', reached: 4 });
  });

  it('is not taken back in a run that a person has ended', () => {
    const back: RunEvent = { kind: 'pressed', gesture: 'back', atMs: 2000 };
    const fed = feedRun(smallSetup(), [startedAt0, { kind: 'ended', atMs: 1000 }, back]);
    expect(fed.state.phase).toBe('finished');
  });
});
