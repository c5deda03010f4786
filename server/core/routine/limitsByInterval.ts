import { lastRow, rowAt } from '../rowAt.ts';
import { type Limit, NO_LIMIT, type PacedRip, slowestOf } from './crewTime.ts';

/** Limits of the spans between neighbouring places of the profile, gathered for the intervals between the marks. */
export function overIntervals({ marks, profile }: PacedRip, spans: readonly Limit[]): readonly Limit[] {
  const sign = lastRow(profile).alongMm < rowAt(profile, 0).alongMm ? -1 : 1;
  const reachesMm = profile.map(({ alongMm }) => sign * alongMm);
  let span = 0;
  return marks.slice(1).map((to, i) => {
    const fromMm = sign * rowAt(marks, i).alongMm;
    const toMm = sign * to.alongMm;
    const within: Limit[] = [];
    while (span > 0 && rowAt(reachesMm, span) > fromMm) span -= 1;
    for (; span < spans.length && rowAt(reachesMm, span) < toMm; span += 1)
      if (rowAt(reachesMm, span + 1) > fromMm) within.push(spans[span] ?? NO_LIMIT);
    return slowestOf(within);
  });
}
