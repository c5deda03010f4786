/** A line of the journal in the words of the shop: what kind of thing it was, and what exactly. */

import { msText } from '../../server/core/figures/durations.ts';
import { feedText } from '../../server/core/figures/feeds.ts';
import { lengthText } from '../../server/core/figures/lengths.ts';
import type { Notation } from '../../server/core/figures/notation.ts';
import type { Heard } from '../../server/core/run/engine/events.ts';
import { linesText } from '../../server/core/run/on/damaged.ts';
import type { JournalLine } from '../../server/wire/kept/journalLine.ts';
import { NOTICE_WORDS } from '../kit/figures/noticeWords.ts';
import { degFigure } from '../kit/figures/shownFigures.ts';
import { HEARING_WORDS, MODE_WORDS } from '../kit/figures/words.ts';

/** What the reader may choose to see; `moves` are the many small readings of travel and tilt. */
export type TimelineKind = 'feed' | 'call' | 'stop' | 'notice' | 'listener' | 'moves';

export interface TimelineEntry {
  readonly seq: number;
  readonly atMs: number;
  readonly kind: TimelineKind;
  readonly word: string;
  readonly what: string;
}

const UNREADABLE_WORDS = { missing: 'Missing', changed: 'Changed', unchecked: 'Not certain' } as const;
const HEARD_WORDS: Readonly<Record<Heard, string>> = {
  bevels: 'the bevels are heard',
  stops: 'stops and warnings only',
  nobody: 'by nobody',
};
const GESTURES = { next: 'Press', again: 'Again', back: 'Back', stop: 'Foot kept down' } as const;

/** Null for a line that says nothing to a reader (time has passed). */
export function timelineEntry(line: JournalLine, notation: Notation): TimelineEntry | null {
  const told = tell(line, notation);
  return told === null ? null : { seq: line.seq, atMs: line.atMs, kind: told[0], word: told[1], what: told[2] };
}

const startedHow = ({ withoutSound, square }: Extract<JournalLine, { readonly kind: 'started' }>): string =>
  [
    ...(withoutSound ? ['without sound'] : []),
    ...(square === 'not confirmed' ? ['square at zero not confirmed'] : []),
  ].join(', ');

function tell(line: JournalLine, notation: Notation): readonly [TimelineKind, string, string] | null {
  switch (line.kind) {
    case 'made': {
      const feed =
        line.feed.kind === 'simulated'
          ? `simulated feed, ${feedText(line.feed.mPerMin, notation, 'nearest')}`
          : 'pedal or scanner';
      const despite = line.despite === undefined ? '' : `; in spite of what forbids the cut: “${line.despite}”`;
      return ['feed', 'Made', `${MODE_WORDS[line.mode]}, ${feed}${despite}`];
    }
    case 'started':
      return ['feed', 'Started', startedHow(line)];
    case 'squared':
      return ['feed', 'Squared', `the blade square by the test block, the readout at ${degFigure(line.seenDeg)}°`];
    case 'pressed':
      return [
        line.gesture === 'stop' ? 'stop' : 'feed',
        GESTURES[line.gesture],
        line.gesture === 'stop' ? 'stop feed' : '',
      ];
    case 'scanned':
      return [
        'feed',
        'Scanned',
        `mark ${line.mark}${line.offsetMm === 0 ? '' : `, ${lengthText(line.offsetMm, notation)} off the blade`}`,
      ];
    case 'moved':
      return ['moves', 'Travel', `${lengthText(line.mm, notation)} counted`];
    case 'tilted':
      return ['moves', 'Tilt', `${degFigure(line.deg)}°`];
    case 'unheard':
      return ['listener', 'Not heard', `call ${line.call}: said again`];
    case 'heard-by':
      return ['listener', 'Heard', HEARD_WORDS[line.hears]];
    case 'heard-after':
      return ['listener', 'Heard', `${msText(line.delayMs)} late on the slowest headset`];
    case 'stopped':
      return ['stop', 'Stop feed', line.by === 'page' ? 'from a page' : 'found standing after a restart'];
    case 'resumed':
      return ['feed', 'Resumed', line.withoutSound === true ? 'without sound' : ''];
    case 'ended':
      return ['feed', 'Finished', 'before the last mark'];
    case 'signal-lost':
      return ['stop', 'Lost', line.detail];
    case 'damaged':
      return [
        'stop',
        'Record damaged',
        line.toLine === null ? `from line ${line.fromLine} on` : linesText(line.fromLine, line.toLine),
      ];
    case 'placed':
      return [
        'feed',
        'At the blade',
        line.mark === 0 ? 'before the first mark' : `mark ${line.mark}, as a person says`,
      ];
    case 'unreadable':
      return [
        'notice',
        UNREADABLE_WORDS[line.what],
        `line ${line.seq}${line.found === undefined ? '' : `: ${line.found}`}`,
      ];
    case 'woken':
      return null;
    case 'called':
      return [
        'call',
        'Called',
        `“${line.text}”${line.mark === undefined ? '' : ` for mark ${line.mark}`}, to ${line.to}`,
      ];
    case 'cancelled':
      return ['call', 'Cut off', `call ${line.id}`];
    case 'missed':
      return ['notice', 'Not called', `mark ${line.mark}: ${line.reason}`];
    case 'told':
      return ['notice', NOTICE_WORDS[line.code], line.message];
    case 'listener':
      return [
        'listener',
        'Listener',
        `${line.role}: ${line.hearing === 'gone' ? 'gone' : HEARING_WORDS[line.hearing]}`,
      ];
    case 'unplayed':
      return ['notice', 'Not played', `call ${line.call}: ${line.reason}`];
  }
}
