/** The record of a run on paper: every figure is the run's. */
import { expect, test } from 'vitest';
import { forbiddingWarnings, inSpiteOf } from '../../server/core/plan/forbids.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { RunEvent } from '../../server/core/run/engine/events.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { debriefOf } from '../../server/core/run/view/debrief.ts';
import { makePaper } from '../../server/paper/makePaper.ts';
import { inRuns, meanFeed } from '../../server/paper/sheets/recordWords.ts';
import type { JournalLine } from '../../server/wire/kept/journalLine.ts';
import { isWorthPaper } from '../../server/wire/request/papers.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { linesOf, readPages } from './printed.ts';

test('what was wanted, had and missed stands in it', async () => {
  const plan = await demoPlan();
  const setup = makeSetup(plan, 'rehearsal', {});
  const end = setup.stations.at(-1)?.positionMm ?? 0;
  const events: RunEvent[] = [{ kind: 'started', withoutSound: true, atMs: 0 }];
  for (let mm = 0, atMs = 1000; mm <= end + 30; mm += 20, atMs += 400)
    events.push({ kind: 'tilted', deg: 2 + mm / 250, atMs }, { kind: 'moved', mm, atMs });
  const debrief = debriefOf(setup, events);
  const lines: JournalLine[] = [
    { seq: 1, kind: 'started', withoutSound: true, atMs: 0 },
    { seq: 2, kind: 'missed', mark: 7, reason: 'the mark came too soon', atMs: 5000 },
    { seq: 3, kind: 'moved', mm: 3, atMs: 6000 },
    ...[11, 12, 13].map(
      (mark, at): JournalLine => ({ seq: 5 + at, kind: 'missed', mark, reason: 'the run ended', atMs: 8000 }),
    ),
    { seq: 4, kind: 'signal-lost', lifeline: 'travel', detail: 'no count for 0.5 s', atMs: 7000 },
  ];
  const view = {
    run: 'r4',
    state: 'finished',
    mode: 'rehearsal',
    routine: 'mark by mark',
    feed: 'external',
    madeAtMs: 0,
    mark: 13,
    nextMark: null,
    isPlaceKnown: true,
    marks: 13,
    record: { isChecked: true, damage: null },
  } as const;
  const pdf = await makePaper({
    paper: 'record',
    size: 'a4',
    plan,
    record: { view, debrief, lines: lines.filter(isWorthPaper) },
  });
  const pages = await readPages(pdf);
  for (const page of pages.filter((each) => each.text.includes('What happened')))
    expect(page.text).toMatch(/What happened \d\d:\d\d:\d\d/);
  const text = pages
    .flatMap(linesOf)
    .map((line) => ` ${line} `)
    .join('\n');
  expect(text).toContain('Run r4,');
  expect(text).toContain('bevels not called: 4');
  expect(text).toContain(`off by ${debrief.rmsErrorDeg?.toFixed(2)}° root mean square`);
  for (const { mark, positionMm, wantedDeg, hadDeg } of debrief.marks) {
    expect(hadDeg).not.toBeNull();
    const callDeg = plan.marks.find((each) => each.mark === mark)?.callDeg ?? Number.NaN;
    const row = new RegExp(
      ` ${mark} ${positionMm.toFixed(1)} ${wantedDeg.toFixed(2)}° ${callDeg.toFixed(1)}° \\S+ \\d\\d:\\d\\d:\\d\\d ${(hadDeg ?? 0).toFixed(2)}° `,
    );
    expect(text).toMatch(row);
  }
  expect(text).toContain('mark 7 was not called: the mark came too soon');
  expect(text).toContain('signal lost: no count for 0.5 s');
  expect(text).toContain('marks 11 to 13 were not called: the run ended');
  expect(text.match(/not called: the run ended/g)).toHaveLength(1);
  expect(lines.filter(isWorthPaper)).toHaveLength(6);
  // 20 mm in 400 ms are 3 m/min.
  expect(text).toMatch(
    /Feed mean (2\.9[89]|3\.0[0-2]) m\/min from mark 13 to mark 1, without the stretch with a stop;\s+mark by mark\s+the plan allows 3\.29 m\/min/s,
  );
});

const missed = (mark: number, reason = 'too soon'): JournalLine => ({
  seq: mark,
  kind: 'missed',
  mark,
  reason,
  atMs: 0,
});

test('only marks that follow each other, one way and for one reason, are told in one line', () => {
  const told = inRuns([
    missed(9),
    missed(8),
    missed(7, 'torn off'),
    missed(5, 'torn off'),
    missed(6),
    missed(5),
    missed(6),
  ]);
  expect(told.map(([, what]) => what ?? 'itself')).toEqual([
    'marks 9 to 8 were not called: too soon',
    'itself',
    'itself',
    'marks 6 to 5 were not called: too soon',
    'itself',
  ]);
});

test('the mean feed is of the stretches without a stop', () => {
  const reached = (mark: number, positionMm: number, reachedAtMs: number | null) => ({
    mark,
    positionMm,
    reachedAtMs,
    wantedDeg: 0,
    hadDeg: null,
    calledAtMs: null,
  });
  const debrief = {
    measured: false,
    trace: [],
    rmsErrorDeg: null,
    worst: null,
    // 100 mm in 3 s are 2 m/min; the stop for a minute between 2 and 3 does not count, and mark 5 never came.
    marks: [
      reached(1, 0, 0),
      reached(2, 100, 3000),
      reached(3, 200, 66_000),
      reached(4, 300, 69_000),
      reached(5, 400, null),
    ],
  };
  const lines: JournalLine[] = [{ seq: 1, kind: 'pressed', gesture: 'stop', atMs: 4000 }];
  expect(meanFeed({ debrief, lines })).toEqual({ mPerMin: 2, from: 1, to: 4, leftOut: 1 });
  expect(meanFeed({ debrief: { ...debrief, marks: debrief.marks.slice(0, 1) }, lines })).toBeNull();
});

test('a run that was made in spite of what forbids the cut says what that is, and the words', async () => {
  const demo = await demoPlan();
  const plan = { ...demo, warnings: [{ code: 'twist', message: 'Too fast.', mark: 6 }] } as const;
  const debrief = debriefOf(makeSetup(plan, 'pair', {}), []);
  const view = {
    run: 'r5',
    state: 'ready',
    mode: 'pair',
    routine: 'mark by mark',
    feed: 'external',
    madeAtMs: 0,
  } as const;
  const printed = async (of: Plan): Promise<string> =>
    (
      await readPages(
        await makePaper({
          paper: 'record',
          size: 'a4',
          plan: of,
          record: {
            view: {
              ...view,
              mark: 0,
              nextMark: 1,
              isPlaceKnown: true,
              marks: 13,
              record: { isChecked: true, damage: null },
            },
            debrief,
            lines: [],
          },
        }),
      )
    )
      .flatMap(linesOf)
      .join(' ');
  const despite = inSpiteOf(plan, 'tried on pine, twice', forbiddingWarnings(plan));
  expect(await printed(despite)).toMatch(
    /Forbidden The bevel changes faster than the blade follows, worst at mark 6\..*“tried on pine, twice”/,
  );
  expect(await printed(plan)).not.toContain('Forbidden');
});
