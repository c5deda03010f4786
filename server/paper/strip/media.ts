/** On what a strip is printed, and how it is built there. */
import type { StripSize } from '../../wire/request/papers.ts';
import type { Build } from './flags.ts';

export interface Medium {
  readonly kind: 'sheets' | 'roll';
  /** Of the sheet as it lies, long side across; of a roll only the second counts. */
  readonly sizeMm: readonly [number, number];
  /** What printers leave white at the edges, with some over. Common practice, no source. */
  readonly marginMm: readonly [number, number];
  readonly builds: readonly [Build, ...Build[]];
  /** The longest piece that goes onto one page. */
  readonly longestMm: number;
}

/** Modules of 1 mm are read where the wood moves 0.4 mm while a camera looks, and farther off than a hand scanner needs. */
const LARGE: Build = {
  figures: 'over the code',
  moduleMm: 1,
  typeMm: 12,
  bandMm: 14,
  lanes: 1,
  headMm: 6,
  footMm: 7,
};
/** Where marks stand close and the paper is wide, their large codes stand in several lanes. */
const large = (lanes: number): Build => ({ ...LARGE, lanes });
const close = (lanes: number, headMm: number, footMm: number): Build => ({
  figures: 'over the code',
  moduleMm: 0.6,
  typeMm: 6,
  bandMm: 6.6,
  lanes,
  headMm,
  footMm,
});
const ON_TAPE: Build = {
  figures: 'beside the code',
  moduleMm: 0.5,
  typeMm: 8.5,
  bandMm: 0,
  lanes: 1,
  headMm: 1.75,
  footMm: 1.75,
};

/** A page of a PDF is at most 14,400 units of 1/72 in long (ISO 32000-1, annex C.2): 5080 mm. */
const LONGEST_PAGE_MM = 5000;
/** What of a piece lies under the next one. */
export const TAB_MM = 12;

const sheets = (widthMm: number, heightMm: number): Medium => {
  const marginMm = [10, 8] as const;
  return {
    kind: 'sheets',
    sizeMm: [widthMm, heightMm],
    marginMm,
    builds: [LARGE, large(2), large(3), large(4), close(3, 6, 6), close(6, 6, 6)],
    longestMm: widthMm - 2 * marginMm[0] - TAB_MM,
  };
};
const roll = (wideMm: number, marginMm: number, builds: Medium['builds']): Medium => ({
  kind: 'roll',
  sizeMm: [LONGEST_PAGE_MM, wideMm],
  marginMm: [4, marginMm],
  builds,
  longestMm: LONGEST_PAGE_MM - 8 - TAB_MM,
});

export const MEDIA: Readonly<Record<StripSize, Medium>> = {
  a4: sheets(297, 210),
  letter: sheets(279.4, 215.9),
  roll62: roll(62, 2, [LARGE, close(2, 5, 5)]),
  tape24: roll(24, 3, [ON_TAPE]),
};
