import { useMemo, useState } from 'preact/hooks';
import { fineSecondsText } from '../../server/core/figures/durations.ts';
import type { Notation } from '../../server/core/figures/notation.ts';
import { timeOf } from '../../server/wire/kept/dayAndTime.ts';
import type { JournalLine } from '../../server/wire/kept/journalLine.ts';
import { CareShape, DoneShape, EarShape, FeedingShape, NoteShape, StoppedShape } from '../kit/parts/noticeShapes.tsx';
import { type TimelineEntry, type TimelineKind, timelineEntry } from './timelineEntry.ts';

const KINDS: readonly (readonly [TimelineKind, string])[] = [
  ['feed', 'presses and scans'],
  ['call', 'calls'],
  ['stop', 'stops'],
  ['notice', 'notices'],
  ['listener', 'listeners'],
  ['moves', 'travel and tilt'],
];
const SHAPES: Readonly<Record<TimelineKind, typeof DoneShape>> = {
  feed: FeedingShape,
  call: EarShape,
  stop: StoppedShape,
  notice: CareShape,
  listener: NoteShape,
  moves: DoneShape,
};
/** A long run has thousands of small readings; the page stays quick when it shows this many at a time. */
const AT_ONCE = 400;

/** Everything that was kept, in its order, with times to a hundredth of a second from the start. */
export function Timeline({ lines, notation }: { readonly lines: readonly JournalLine[]; readonly notation: Notation }) {
  const [hidden, setHidden] = useState<ReadonlySet<TimelineKind>>(new Set<TimelineKind>(['moves', 'listener']));
  const [limit, setLimit] = useState(AT_ONCE);
  const entries = useMemo(
    () => lines.map((line) => timelineEntry(line, notation)).filter((entry) => entry !== null),
    [lines, notation],
  );
  const startMs = lines.find((line) => line.kind === 'started')?.atMs ?? lines[0]?.atMs ?? 0;
  const wanted = entries.filter((entry) => !hidden.has(entry.kind));

  function toggle(kind: TimelineKind): void {
    const next = new Set(hidden);
    if (!next.delete(kind)) next.add(kind);
    setHidden(next);
  }

  return (
    <section class="stack">
      <h2>Everything, in order</h2>
      <div class="row timeline-kinds">
        {KINDS.map(([kind, word]) => (
          <label key={kind} class="row">
            <input type="checkbox" checked={!hidden.has(kind)} onChange={() => toggle(kind)} />
            {word} ({entries.filter((entry) => entry.kind === kind).length})
          </label>
        ))}
      </div>
      <ol class="timeline">
        {wanted.slice(0, limit).map((entry) => (
          <TimelineRow key={entry.seq} entry={entry} startMs={startMs} />
        ))}
      </ol>
      {wanted.length > limit && (
        <button type="button" onClick={() => setLimit(limit + AT_ONCE)}>
          Show more ({wanted.length - limit} left)
        </button>
      )}
    </section>
  );
}

function TimelineRow({ entry, startMs }: { readonly entry: TimelineEntry; readonly startMs: number }) {
  const Shape = SHAPES[entry.kind];
  return (
    <li class={`timeline-row timeline-${entry.kind}`}>
      <span class="figures soft">{timeOf(entry.atMs)}</span>
      <span class="figures timeline-since">{fineSecondsText((entry.atMs - startMs) / 1000)}</span>
      <span class="timeline-word">
        <Shape /> {entry.word}
      </span>
      <span>{entry.what}</span>
    </li>
  );
}
