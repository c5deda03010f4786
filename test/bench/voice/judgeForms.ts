/** Voices, number forms and processing beside each other, and whether the program's default is what the rule takes. */
import { defaultTask, FORM_CELLS, type FormRow, formTask, OUR_FORM, shareAt } from './forms.ts';
import { listenToAll } from './listenToAll.ts';
import { AT_5_AND_0 } from './places.ts';
import { formTable, mistakeLines, percent } from './print.ts';
import { chosen, RULE, WANTED_AT_5 } from './rule.ts';
import { OURS, speakerName } from './speakers.ts';

export async function judgeForms(): Promise<boolean> {
  const [ours, ...listened] = await listenToAll([defaultTask(AT_5_AND_0), ...FORM_CELLS.map((cell) => formTask(cell))]);
  if (ours === undefined) throw new Error('the default was not listened to');
  const rows = FORM_CELLS.flatMap((cell, i) => {
    const one = listened[i];
    return one === undefined ? [] : [{ ...cell, listened: one }];
  });
  console.log(`\n# Understood exactly, of the 91 half degrees from 0 to 45, in %\n${formTable(rows)}`);

  const isOurs = ({ speaker, form }: FormRow): boolean => speaker === OURS && form === OUR_FORM;
  const { taken, equal } = chosen(rows, isOurs);
  console.log(`\n# The default\n${RULE}`);
  for (const { speaker, form } of equal) console.log(`  as good as the best: ${speakerName(speaker)}, ${form}`);
  console.log(
    `  the rule takes: ${speakerName(taken.speaker)}, ${taken.form}; the program has: ${speakerName(OURS)}, ${OUR_FORM}`,
  );
  console.log(`  once more, in other noise: +5 ${percent(shareAt(ours, '+5'))}, 0 ${percent(shareAt(ours, '0'))}`);
  console.log(mistakeLines(ours));
  return isOurs(taken) && shareAt(ours, '+5') >= WANTED_AT_5;
}
