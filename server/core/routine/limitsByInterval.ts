import { type Limit, NO_LIMIT, type PacedRip, slowestOf } from './crewTime.ts';

/** Limits of the spans between neighbouring places of the profile, gathered for the intervals between the marks. */
export function overIntervals({ marks, profile }: PacedRip, spans: readonly Limit[]): readonly Limit[] {
  const sign = (profile.at(-1)?.alongMm ?? 0) < (profile[0]?.alongMm ?? 0) ? -1 : 1;
  const reachesMm = profile.map(({ alongMm }) => sign * alongMm);
  let span = 0;
  return marks.slice(1).map((to, i) => {
    const fromMm = sign * (marks[i]?.alongMm ?? 0);
    const toMm = sign * to.alongMm;
    const within: Limit[] = [];
    while (span > 0 && (reachesMm[span] ?? 0) > fromMm) span -= 1;
    for (; span < spans.length && (reachesMm[span] ?? 0) < toMm; span += 1)
      if ((reachesMm[span + 1] ?? 0) > fromMm) within.push(spans[span] ?? NO_LIMIT);
    return slowestOf(within);
  });
}
