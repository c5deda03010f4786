import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ServerClock } from '../../client/kit/link/serverClock.ts';
import { DEFAULT_KEYS, dutyOf, forgetKey, teach } from '../../client/kit/pedal/pedalKeys.ts';
import { NO_SCAN, SCAN_GAP_MS, scanStep } from '../../client/kit/pedal/scanReader.ts';
import { gatherJob } from '../../client/start/gatherJob.ts';
import { tiltOf, turnWheel, wheelAt } from '../../client/wheel/wheelHand.ts';

describe('the pedal keys', () => {
  it('learn a key for one duty and take it from the others; Escape always stops', () => {
    const taught = teach(DEFAULT_KEYS, 'press', 'KeyB');
    expect(dutyOf(taught, 'KeyB')).toBe('press');
    expect(taught.back).not.toContain('KeyB');
    expect(dutyOf(teach(DEFAULT_KEYS, 'press', 'Escape'), 'Escape')).toBe('stop');
    expect(dutyOf(forgetKey(DEFAULT_KEYS, 'stop', 'Escape'), 'Escape')).toBe('stop');
    expect(dutyOf(forgetKey(DEFAULT_KEYS, 'press', 'Enter'), 'Enter')).toBeUndefined();
  });
});

describe('a hand scanner that types', () => {
  function read(keys: readonly string[], gapMs: number): string[] {
    let scan = NO_SCAN;
    return keys.map((key, index) => {
      const [next, reading] = scanStep(scan, key, 1000 + index * gapMs);
      scan = next;
      return reading.kind === 'scan' ? reading.text : reading.kind;
    });
  }

  it('is told from a person by its haste, and its Enter is no press', () => {
    expect(read([...'BTM7', 'Enter'], 5)).toEqual(['perhaps', 'part', 'part', 'part', 'BTM7']);
    expect(read([...'BTM7', 'Tab'], SCAN_GAP_MS)).toContain('BTM7');
    expect(read([...'BTM', 'Enter'], 120)).toEqual(['perhaps', 'perhaps', 'perhaps', 'not-a-scan']);
    expect(read(['Enter'], 5)).toEqual(['not-a-scan']);
  });

  it('leaves a switch that bounces to the pedal, whatever key it types', () => {
    expect(read([' ', ' '], 5)).toEqual(['perhaps', 'not-a-scan']);
    expect(read(['p', 'p', 'p'], 10)).toEqual(['perhaps', 'not-a-scan', 'not-a-scan']);
  });

  it('goes through the shift keys that it types in between', () => {
    expect(read(['Shift', 'B', 'Shift', 'T', '7', 'Enter'], 5).at(-1)).toBe('BT7');
  });
});

describe('the server clock', () => {
  it('is right within half the shortest round trip, whatever the delays', () => {
    const probe = fc.record({
      outMs: fc.double({ min: 0.1, max: 200, noNaN: true }),
      backMs: fc.double({ min: 0.1, max: 200, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(probe, { minLength: 1, maxLength: 30 }),
        fc.integer({ min: -1e6, max: 1e12 }),
        (probes, offset) => {
          const clock = new ServerClock();
          let sentMs = 0;
          for (const { outMs, backMs } of probes) {
            clock.add({ sentMs, serverMs: sentMs + outMs + offset, receivedMs: sentMs + outMs + backMs });
            sentMs += 500;
          }
          const shortest = Math.min(...probes.map(({ outMs, backMs }) => outMs + backMs));
          expect(Math.abs((clock.offsetMs ?? Number.NaN) - offset)).toBeLessThanOrEqual(shortest / 2 + 1e-3);
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe('dropped files', () => {
  const job = { name: 'job.json', text: '{"format":"by-the-mark/job@1"}' };
  const table = { name: 'pickup.csv', text: 'girth,bevel\n0,1\n9,2\n' };
  const empty = { job: null, tables: {} };

  it('make a job together, and one after the other', () => {
    const together = gatherJob([table, job], empty);
    const later = gatherJob([job], { job: null, tables: { [table.name]: table.text } });
    for (const gathered of [together, later])
      expect(gathered).toMatchObject({
        ok: true,
        job: { job: JSON.parse(job.text), files: { 'pickup.csv': table.text } },
      });
  });

  it('put a table in the place of the one that lies there', () => {
    const bench = { job: { job: { title: 'x' }, files: { 'pickup.csv': 'old', 'pattern.csv': 'p' } }, tables: {} };
    expect(gatherJob([table], bench)).toMatchObject({
      job: { job: { title: 'x' }, files: { 'pickup.csv': table.text, 'pattern.csv': 'p' } },
    });
  });

  it('are refused where the job that lies there uses none of them', () => {
    const bench = { job: { job: { shape: { pickup: 'pickup.csv' } }, files: { 'pickup.csv': 'old' } }, tables: {} };
    expect(gatherJob([{ ...table, name: 'pickup-again.csv' }], bench)).toMatchObject({
      ok: false,
      message: expect.stringContaining('does not use pickup-again.csv. It uses pickup.csv.'),
    });
    expect(gatherJob([table], bench)).toMatchObject({ ok: true });
  });

  it('are refused with what to do', () => {
    expect(gatherJob([table], empty)).toMatchObject({ ok: false, message: expect.stringContaining('job file') });
    expect(gatherJob([job, { ...job, name: 'other.json' }], empty)).toMatchObject({ ok: false });
    expect(gatherJob([{ name: 'job.json', text: '{' }], empty)).toMatchObject({ ok: false });
  });
});

describe('the rehearsal handwheel', () => {
  const limits = { turnsPerS: 0.7, degreesPerTurn: 2, tiltDeg: [-5, 45] } as const;

  it('turns no faster than a hand cranks and no farther than a saw tilts', () => {
    const pull = fc.record({
      cranking: fc.constantFrom(-1 as const, 0 as const, 1 as const),
      elapsedS: fc.double({ min: 0, max: 0.1, noNaN: true }),
      wantedTurns: fc.double({ min: -100, max: 100, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(pull, { maxLength: 50 }), (pulls) => {
        let hand = wheelAt(0, limits);
        for (const { cranking, elapsedS, wantedTurns } of pulls) {
          const next = turnWheel({ ...hand, wantedTurns }, cranking, elapsedS, limits);
          expect(Math.abs(next.turns - hand.turns)).toBeLessThanOrEqual(limits.turnsPerS * elapsedS + 1e-9);
          expect(next.turns * limits.degreesPerTurn).toBeLessThanOrEqual(45 + 1e-9);
          expect(next.turns * limits.degreesPerTurn).toBeGreaterThanOrEqual(-5 - 1e-9);
          hand = next;
        }
      }),
    );
  });

  it('stays where the key is let go', () => {
    const cranked = turnWheel(wheelAt(0, limits), 1, 0.1, limits);
    expect(turnWheel(cranked, 0, 0.1, limits)).toEqual(cranked);
  });

  it('is worth as much a turn as the saw’s table says, and takes its looseness up when it is turned back', () => {
    const loose = {
      ...limits,
      turnsTable: [
        [0, 0],
        [5, 5],
        [10, 20],
      ] as const,
      backlashTurns: 0.25,
    };
    let hand = wheelAt(0, loose);
    const turnTo = (turns: number) => {
      for (let i = 0; i < 2000; i += 1) hand = turnWheel({ ...hand, wantedTurns: turns }, 0, 0.05, loose);
    };
    // Half the looseness from the middle: then a degree a turn below five turns, three above.
    turnTo(4.125);
    expect(tiltOf(hand, loose)).toBeCloseTo(4, 9);
    turnTo(8.125);
    expect(tiltOf(hand, loose)).toBeCloseTo(14, 9);
    turnTo(7.875);
    expect(tiltOf(hand, loose)).toBeCloseTo(14, 9);
    turnTo(6.875);
    expect(tiltOf(hand, loose)).toBeCloseTo(11, 9);
    // Where another page has turned it to.
    expect(tiltOf(wheelAt(11, loose), loose)).toBeCloseTo(11, 9);
  });
});
