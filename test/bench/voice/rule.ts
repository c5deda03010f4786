import { type FormRow, shareAt } from './forms.ts';

/** A call that takes longer than this on average leaves the hand too little time. */
export const LONGEST_S = 1.5;
/** What must be understood at +5. */
export const WANTED_AT_5 = 0.98;

export const RULE = `The default must understand ${WANTED_AT_5 * 100} % at +5. Of the processed voices and forms whose calls take at most ${LONGEST_S} s on average, the one
least misunderstood at +5 and 0 LU taken together is the best. The program's own stays as long as it is not worse than the best by
more than two standard errors of the difference: people who have learnt a voice are not given another for a hair. Else the best is taken.`;

/** Share misunderstood at +5 and 0 together, and how often it was asked. */
export function misunderstood({ listened }: FormRow): { readonly share: number; readonly said: number } {
  const places = ['+5', '0'];
  const said = listened.heard.filter(({ place }) => places.includes(place)).reduce((sum, one) => sum + one.said, 0);
  return { share: 1 - places.reduce((sum, place) => sum + shareAt(listened, place), 0) / places.length, said };
}

/** The row that the rule takes, and those that it counts as equal to the best. */
export function chosen(
  rows: readonly FormRow[],
  isOurs: (row: FormRow) => boolean,
): { readonly taken: FormRow; readonly equal: readonly FormRow[] } {
  const inQuestion = rows
    .filter(({ isProcessed, listened }) => isProcessed && listened.meanS <= LONGEST_S)
    .map((row) => ({ row, ...misunderstood(row) }));
  const least = [...inQuestion].sort((a, b) => a.share - b.share)[0];
  if (least === undefined) throw new Error(`no processed voice takes at most ${LONGEST_S} s`);
  const square = ({ share, said }: { share: number; said: number }): number => (share * (1 - share)) / said;
  const equal = inQuestion
    .filter((one) => one.share - least.share <= 2 * Math.sqrt(square(one) + square(least)))
    .map(({ row }) => row);
  return { taken: equal.find(isOurs) ?? least.row, equal };
}
