/** What the record of a run says in words: how fast it was fed, and runs of lines of one kind in one. */
import { feedText } from '../../core/figures/feeds.ts';
import type { Plan } from '../../core/plan/plan.ts';
import type { JournalLine } from '../../wire/kept/journalLine.ts';
import type { RunRecord } from '../../wire/request/papers.ts';
import { feedOf } from '../paperFigures.ts';

const STANDING: ReadonlySet<JournalLine['kind']> = new Set(['stopped', 'signal-lost']);
const isStanding = (line: JournalLine): boolean =>
  STANDING.has(line.kind) || (line.kind === 'pressed' && line.gesture === 'stop');

/** Length over time from mark to mark, without the stretches in which the stock stood. m/min. */
export function meanFeed({ debrief, lines }: Pick<RunRecord, 'debrief' | 'lines'>): {
  readonly mPerMin: number;
  readonly from: number;
  readonly to: number;
  readonly leftOut: number;
} | null {
  const came = debrief.marks.flatMap(({ mark, positionMm, reachedAtMs }) =>
    reachedAtMs === null ? [] : [{ mark, positionMm, atMs: reachedAtMs }],
  );
  const stops = lines.filter(isStanding).map(({ atMs }) => atMs);
  let [longMm, tookMs, leftOut] = [0, 0, 0];
  for (const [index, here] of came.entries()) {
    const before = came[index - 1];
    if (before === undefined) continue;
    if (stops.some((atMs) => atMs >= before.atMs && atMs < here.atMs)) {
      leftOut += 1;
      continue;
    }
    longMm += Math.abs(here.positionMm - before.positionMm);
    tookMs += here.atMs - before.atMs;
  }
  const [first, last] = [came[0], came.at(-1)];
  if (tookMs <= 0 || first === undefined || last === undefined) return null;
  return { mPerMin: longMm / 1000 / (tookMs / 60_000), from: first.mark, to: last.mark, leftOut };
}

export function meanFeedText(plan: Plan, record: Pick<RunRecord, 'debrief' | 'lines'>): string {
  const { notation, pace } = plan;
  const plans = `mark by mark the plan allows ${feedOf(pace.limitMPerMin, notation)}`;
  const mean = meanFeed(record);
  if (mean === null) return `not known: fewer than two marks were reached; ${plans}`;
  const { mPerMin, from, to, leftOut } = mean;
  const figure = feedText(mPerMin, notation, 'nearest');
  const without =
    leftOut === 0 ? '' : `, without ${leftOut === 1 ? 'the stretch' : `${leftOut} stretches`} with a stop`;
  return `mean ${figure} from mark ${from} to mark ${to}${without}; ${plans}`;
}

/** Lines with what stands for them; marks that follow each other and were not called for one reason are one line. */
export function inRuns(lines: readonly JournalLine[]): readonly (readonly [line: JournalLine, what?: string])[] {
  const told: [JournalLine, string?][] = [];
  for (let at = 0; at < lines.length; ) {
    const line = lines[at];
    if (line === undefined) break;
    const long = runFrom(lines, at);
    const last = lines[at + long - 1];
    if (long > 1 && line.kind === 'missed' && last?.kind === 'missed')
      told.push([line, `marks ${line.mark} to ${last.mark} were not called: ${line.reason}`]);
    else told.push([line]);
    at += long;
  }
  return told;
}

/** How many lines from here tell of marks that follow each other, one way, for the same reason. */
function runFrom(lines: readonly JournalLine[], from: number): number {
  let [before, way, long] = [lines[from], 0, 1];
  for (const line of lines.slice(from + 1)) {
    if (before?.kind !== 'missed' || line.kind !== 'missed' || line.reason !== before.reason) break;
    const by = line.mark - before.mark;
    if (Math.abs(by) !== 1 || (way !== 0 && by !== way)) break;
    [before, way, long] = [line, by, long + 1];
  }
  return long;
}
