/** What is wrong with a run's record, told wherever the run is. */
import { linesText } from '../../core/run/on/damaged.ts';
import { dayOf, timeOf } from './dayAndTime.ts';

export interface Damage {
  /** The first line that is missing or not as it was kept; null where the run itself cannot be read. */
  readonly fromLine: number | null;
  /** The last one; null where it is not known whether lines are missing at the end. */
  readonly toLine: number | null;
  /** The time of the last line before it that is as it was kept. */
  readonly sinceMs: number | null;
  readonly message: string;
}

const since = (sinceMs: number | null): string =>
  sinceMs === null ? '' : ` Nothing is sure after ${dayOf(sinceMs)} at ${timeOf(sinceMs)}.`;

/** `count`: how many of the lines from the first to the last are missing or not as they were kept. */
export function damagedLines(fromLine: number, toLine: number, count: number, sinceMs: number | null): Damage {
  const which = linesText(fromLine, toLine);
  const all = toLine - fromLine + 1;
  const what =
    all === 1
      ? `${which} is missing or not as it was kept`
      : `${count === all ? '' : `${count} of `}${which} are missing or not as they were kept`;
  return { fromLine, toLine, sinceMs, message: `The record is damaged: ${what}.${since(sinceMs)}` };
}

export const unknownEnd = (fromLine: number, sinceMs: number | null): Damage => ({
  fromLine,
  toLine: null,
  sinceMs,
  message: `The second trace of this run is gone: whether lines are missing from line ${fromLine} on is not known.${since(sinceMs)}`,
});

export const UNREADABLE_RUN: Damage = {
  fromLine: null,
  toLine: null,
  sinceMs: null,
  message:
    'This run was kept and cannot be read any more. Put back a backup of the data folder, or make the run anew from its job. What is left of its journal can be saved.',
};
