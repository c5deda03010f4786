/**
 * The listening bench: what an ear that knows nothing of us understands of the calls in a band saw's noise. Voices, forms and
 * processing beside each other; the default by a rule; words that must not be taken for each other.
 */
import { progressOn } from '../../../server/commands/progress.ts';
import { shareOut } from '../../../server/workers/shareOut.ts';
import { earMissing } from './ear.ts';
import { defaultTask, FORM_CELLS, formTask, OUR_FORM, shareAt } from './forms.ts';
import type { Listened, Listening } from './listenTo.ts';
import { AT_5_AND_0 } from './places.ts';
import { ABOUT, formTable, mistakeLines, percent, wordTable } from './print.ts';
import { chosen, RULE, WANTED_AT_5 } from './rule.ts';
import { OURS, speakerName } from './speakers.ts';
import { dangerous, stopsHeard, turnsHeard, wordTasks } from './words.ts';

const DOOR = new URL('./listenDoor.mjs', import.meta.url);
/** The recogniser runs beside its thread: two keep two cores busy. */
const THREADS = 2;

const missing = earMissing();
if (missing !== undefined) {
  console.error(missing);
  process.exit(2);
}

console.log(ABOUT);
const tasks = [...FORM_CELLS.map((cell) => formTask(cell)), defaultTask(AT_5_AND_0), ...wordTasks];
const listened = await listenToAll(tasks);
const rows = FORM_CELLS.flatMap((cell, i) => {
  const one = listened[i];
  return one === undefined ? [] : [{ ...cell, listened: one }];
});
console.log(`\n# Understood exactly, of the 91 half degrees from 0 to 45, in %\n${formTable(rows)}`);

const { best, equal } = chosen(rows);
const isOurs = best.speaker === OURS && best.form === OUR_FORM;
console.log(`\n# The default\n${RULE}`);
for (const { speaker, form } of equal) console.log(`  as good as the best: ${speakerName(speaker)}, ${form}`);
console.log(
  `  the rule takes: ${speakerName(best.speaker)}, ${best.form}; the program has: ${speakerName(OURS)}, ${OUR_FORM}`,
);

const [ours, ...words] = listened.slice(FORM_CELLS.length);
if (ours === undefined) throw new Error('the default was not listened to');
console.log(`  once more, in other noise: +5 ${percent(shareAt(ours, '+5'))}, 0 ${percent(shareAt(ours, '0'))}`);
console.log(mistakeLines(ours));

const [ofWords, ofFigures] = words.map(({ heard }) => heard);
if (ofWords === undefined || ofFigures === undefined) throw new Error('the words were not listened to');
console.log(`\n# Growing and shrinking, among all that may be said (* ours)\n${wordTable(turnsHeard(ofWords))}`);
console.log(
  `\n# To stop by; one stop taken for another counts as understood (* ours)\n${wordTable(stopsHeard(ofWords))}`,
);
const danger = dangerous([...ofWords, ...ofFigures]);
console.log(`\nDangerous mistakes at +5: ${danger.length === 0 ? 'none' : ''}`);
for (const { said, heard } of danger) console.log(`  ${said} -> ${heard}`);

const holds = isOurs && shareAt(ours, '+5') >= WANTED_AT_5 && danger.length === 0;
console.log(`\n${holds ? 'It holds.' : 'It does not hold.'}`);
process.exit(holds ? 0 : 1);

async function listenToAll(all: readonly Listening[]): Promise<readonly Listened[]> {
  const calls = ({ texts, places, takes }: Listening): number => texts.length * places.length * takes;
  const progress = progressOn(
    process.stderr,
    'calls',
    all.reduce((sum, task) => sum + calls(task), 0),
  );
  try {
    return await shareOut<Listening, Listened>({
      door: DOOR,
      name: 'listenTo',
      tasks: all,
      common: null,
      threads: THREADS,
      onDone: (task) => progress.done(calls(task)),
    });
  } finally {
    progress.end();
  }
}
