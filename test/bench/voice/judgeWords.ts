/** Words for growing and shrinking, words to stop by, and whether ours are ever taken for what they are not. */
import { listenToAll } from './listenToAll.ts';
import { wordTable } from './print.ts';
import { dangerous, stopsHeard, turnsHeard, wordTasks } from './words.ts';

export async function judgeWords(): Promise<boolean> {
  const [ofWords, ofFigures] = (await listenToAll(wordTasks)).map(({ heard }) => heard);
  if (ofWords === undefined || ofFigures === undefined) throw new Error('the words were not listened to');
  console.log(`\n# Growing and shrinking, among all that may be said (* ours)\n${wordTable(turnsHeard(ofWords))}`);
  console.log(
    `\n# To stop by; one stop taken for another counts as understood (* ours)\n${wordTable(stopsHeard(ofWords))}`,
  );
  const danger = dangerous([...ofWords, ...ofFigures]);
  console.log(`\nDangerous mistakes at +5: ${danger.length === 0 ? 'none' : ''}`);
  for (const { said, heard } of danger) console.log(`  ${said} -> ${heard}`);
  return danger.length === 0;
}
