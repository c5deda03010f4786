import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { JournalPort } from '../../server/live/livePorts.ts';
import type { JournalEntry, JournalLine } from '../../server/wire/kept/journalLine.ts';
import { anyEntry } from '../journal/anyEntry.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { holds } from '../kit/holds.ts';

export interface JournalUnderTest {
  readonly journal: JournalPort;
  /** Closes it and opens the same one again. */
  readonly reopen: () => JournalPort;
  readonly done: () => void;
}

const pressed = (atMs: number): JournalEntry => ({ kind: 'pressed', atMs, gesture: 'next' });

/** What a live run relies on in any journal. */
export function journalContract(name: string, open: () => JournalUnderTest): void {
  const withJournal = (act: (under: JournalUnderTest) => void) => () => {
    const under = open();
    try {
      act(under);
    } finally {
      under.done();
    }
  };

  describe(`${name} keeps the journal's contract`, () => {
    it(
      'gives a run back as it was made, with its first line',
      withJournal(({ journal, reopen }) => {
        const made = madeUpRun('r1');
        journal.keepRun(made);
        for (const each of [() => journal, reopen]) {
          const opened = each();
          expect(opened.run('r1')).toEqual(made);
          expect([...opened.lines('r1')]).toEqual([
            { seq: 1, kind: 'made', atMs: made.madeAtMs, mode: 'pair', feed: made.feed, title: made.title },
          ]);
        }
      }),
    );

    it(
      'lists runs newest first, and of the same age the later kept first',
      withJournal(({ journal, reopen }) => {
        journal.keepRun(madeUpRun('old', 100));
        journal.keepRun(madeUpRun('new', 300));
        journal.keepRun(madeUpRun('between', 200));
        journal.keepRun(madeUpRun('between too', 200));
        const names = ['new', 'between too', 'between', 'old'];
        expect(journal.names(100)).toEqual(names);
        expect(journal.names(2)).toEqual(names.slice(0, 2));
        expect(reopen().names(100)).toEqual(names);
      }),
    );

    it(
      'knows nothing of a run that was never kept',
      withJournal(({ journal }) => {
        expect(journal.run('none')).toBeUndefined();
        expect([...journal.lines('none')]).toEqual([]);
        expect(() => journal.append('none', 0, [pressed(1)])).toThrow(expect.objectContaining({ code: 'no-such-run' }));
      }),
    );

    it(
      'refuses a second run of the same name and leaves the first as it was',
      withJournal(({ journal }) => {
        const made = madeUpRun('r1');
        journal.keepRun(made);
        expect(() => journal.keepRun({ ...made, title: 'other' })).toThrow(
          expect.objectContaining({ code: 'run-exists' }),
        );
        expect(journal.run('r1')).toEqual(made);
      }),
    );

    it(
      'refuses a writer who believes another last line, and keeps nothing of what it brought',
      withJournal(({ journal }) => {
        journal.keepRun(madeUpRun('r1'));
        expect(journal.append('r1', 1, [pressed(1), pressed(2)])).toBe(3);
        for (const afterSeq of [0, 1, 2, 4])
          expect(() => journal.append('r1', afterSeq, [pressed(9)])).toThrow(
            expect.objectContaining({ code: 'conflict' }),
          );
        expect([...journal.lines('r1')]).toHaveLength(3);
      }),
    );

    it(
      'refuses a group with an entry that could not be read back, as a whole',
      withJournal(({ journal }) => {
        journal.keepRun(madeUpRun('r1'));
        const notFinite: JournalEntry = { kind: 'moved', atMs: 5, mm: Number.NaN };
        expect(() => journal.append('r1', 1, [pressed(4), notFinite])).toThrow(
          expect.objectContaining({ code: 'bad-entry', message: expect.stringContaining('line 3 of run r1') }),
        );
        expect(journal.append('r1', 1, [pressed(4)])).toBe(2);
      }),
    );

    it(
      'lets a run be written while its lines are being read, and gives the lines that stood there at the start',
      withJournal(({ journal }) => {
        journal.keepRun(madeUpRun('r1'));
        const last = journal.append(
          'r1',
          1,
          Array.from({ length: 1500 }, (_, index) => pressed(index)),
        );
        const reading = journal.lines('r1');
        reading.next();
        journal.append('r1', last, [pressed(1e6)]);
        expect([...reading].map(({ seq }) => seq)).toEqual(Array.from({ length: last - 1 }, (_, index) => index + 2));
      }),
    );

    it(
      'agrees with a list in memory, whatever is appended and however often it is opened again',
      withJournal((under) => {
        let journal = under.journal;
        let runs = 0;
        holds(
          fc.property(fc.array(step, { maxLength: 8 }), (steps) => {
            // Other runs with lines of their own stand beside, so that runs are not mixed up.
            const names = [`a${runs}`, `b${runs}`];
            runs += 1;
            const model = new Map<string, JournalLine[]>();
            for (const name of names) {
              journal.keepRun(madeUpRun(name));
              model.set(name, [...journal.lines(name)]);
            }
            for (const { which, entries, believedOff, reopened } of steps) {
              const name = names[which] ?? '';
              const kept = model.get(name) ?? [];
              const append = () => journal.append(name, kept.length + believedOff, entries);
              if (believedOff === 0) expect(append()).toBe(kept.length + entries.length);
              else expect(append).toThrow(expect.objectContaining({ code: 'conflict' }));
              if (believedOff === 0) for (const entry of entries) kept.push({ seq: kept.length + 1, ...entry });
              if (reopened) journal = under.reopen();
            }
            for (const name of names) expect([...journal.lines(name)]).toEqual(model.get(name));
          }),
          { numRuns: 60 },
        );
      }),
    );
  });
}

const step = fc.record({
  which: fc.constantFrom(0, 1),
  entries: fc.array(anyEntry, { maxLength: 5 }),
  believedOff: fc.oneof({ weight: 4, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: fc.constantFrom(-1, 1, 7) }),
  reopened: fc.oneof({ weight: 5, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
});
