/** What can be printed, and on what. */
import type { Plan } from '../../core/plan/plan.ts';
import type { Debrief } from '../../core/run/view/debrief.ts';
import type { JournalLine } from '../kept/journalLine.ts';
import type { RunView } from '../message/messages.ts';
import { showFound } from '../problem/showFound.ts';

/** Papers that a plan is enough for. */
export const PAPERS = ['strip', 'sheet', 'which-way', 'board', 'test-cuts'] as const;
export type PaperName = (typeof PAPERS)[number];

/** `roll62`: a label roll 62 mm wide; `tape24`: a label tape 24 mm wide. */
export const STRIP_SIZES = ['a4', 'letter', 'roll62', 'tape24'] as const;
export type StripSize = (typeof STRIP_SIZES)[number];
export const SHEET_SIZES = ['a4', 'letter'] as const;
export type SheetSize = (typeof SHEET_SIZES)[number];

const isStripSize = (text: string): text is StripSize => STRIP_SIZES.some((size) => size === text);
export const isSheetSize = (text: string): text is SheetSize => SHEET_SIZES.some((size) => size === text);
export const isPaperName = (text: string): text is PaperName => PAPERS.some((name) => name === text);

/** A paper of a plan, with a size that it is made in. */
type PaperAsked =
  | { readonly paper: 'strip'; readonly size: StripSize }
  | { readonly paper: Exclude<PaperName, 'strip'>; readonly size: SheetSize };

/** The paper and the size by their names, A4 where none is given; otherwise what is wrong with the size. */
export function paperAsked(
  paper: PaperName,
  size = 'a4',
): PaperAsked | { readonly found: string; readonly wanted: string } {
  const sizes = paper === 'strip' ? STRIP_SIZES : SHEET_SIZES;
  if (paper === 'strip' && isStripSize(size)) return { paper, size };
  if (paper !== 'strip' && isSheetSize(size)) return { paper, size };
  return { found: showFound(size), wanted: `one of ${sizes.join(', ')}` };
}

export interface RunRecord {
  readonly view: Pick<
    RunView,
    | 'run'
    | 'state'
    | 'mode'
    | 'routine'
    | 'feed'
    | 'madeAtMs'
    | 'mark'
    | 'nextMark'
    | 'marks'
    | 'isPlaceKnown'
    | 'record'
  >;
  readonly debrief: Debrief;
  /** Those of the journal that `isWorthPaper` lets pass. */
  readonly lines: readonly JournalLine[];
}

const ON_PAPER: ReadonlySet<JournalLine['kind']> = new Set([
  'started',
  'squared',
  'stopped',
  'resumed',
  'ended',
  'signal-lost',
  'damaged',
  'placed',
  'missed',
  'told',
  'unplayed',
]);
/** Stops, losses and what was not said; not the calls and presses of a run that went well, which the table has. */
export const isWorthPaper = (line: JournalLine): boolean =>
  ON_PAPER.has(line.kind) || (line.kind === 'pressed' && line.gesture !== 'next');

/** What the printing thread is given. */
export type PaperTask =
  | (PaperAsked & { readonly plan: Plan })
  | { readonly paper: 'record'; readonly size: SheetSize; readonly plan: Plan; readonly record: RunRecord };
