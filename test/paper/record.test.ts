/** The record of a run on paper: every figure is the run's. */
import { expect, test } from 'vitest';
import { debriefOf } from '../../server/core/run/debrief.ts';
import type { RunEvent } from '../../server/core/run/events.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { makePaper } from '../../server/paper/makePaper.ts';
import type { JournalLine } from '../../server/wire/journalLine.ts';
import { isWorthPaper } from '../../server/wire/papers.ts';
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
    { seq: 4, kind: 'signal-lost', lifeline: 'travel', detail: 'no count for 0.5 s', atMs: 7000 },
  ];
  const view = {
    run: 'r4',
    state: 'finished',
    mode: 'rehearsal',
    routine: 'mark by mark',
    feed: 'external',
    madeAtMs: 0,
    marks: 13,
  } as const;
  const pdf = await makePaper({
    paper: 'record',
    size: 'a4',
    plan,
    record: { view, debrief, lines: lines.filter(isWorthPaper) },
  });
  const text = (await readPages(pdf))
    .flatMap(linesOf)
    .map((line) => ` ${line} `)
    .join('\n');
  expect(text).toContain('Run r4,');
  expect(text).toContain('bevels not called: 1');
  expect(text).toContain(`off by ${debrief.rmsErrorDeg?.toFixed(2)}° root mean square`);
  for (const { mark, positionMm, wantedDeg, hadDeg } of debrief.marks) {
    expect(hadDeg).not.toBeNull();
    const row = new RegExp(
      ` ${mark} ${positionMm.toFixed(1)} ${wantedDeg.toFixed(2)}° \\S+ \\d\\d:\\d\\d:\\d\\d ${(hadDeg ?? 0).toFixed(2)}° `,
    );
    expect(text).toMatch(row);
  }
  expect(text).toContain('mark 7 was not called: the mark came too soon');
  expect(text).toContain('signal lost: no count for 0.5 s');
  expect(lines.filter(isWorthPaper)).toHaveLength(3);
});
