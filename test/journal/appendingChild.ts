/** Opens the journal named on the command line and appends without end; every acknowledged `seq` is a line on stdout. */
import { writeSync } from 'node:fs';
import { openJournal } from '../../server/journal/openJournal.ts';
import { entryAt } from './entryAt.ts';

const [file = '', run = ''] = process.argv.slice(2);
const journal = openJournal({ file });
let seq = [...journal.lines(run)].length;
for (;;) {
  // One, two or three lines at a time, as a live run does it.
  const group = Array.from({ length: 1 + (seq % 3) }, (_, index) => entryAt(seq + 1 + index));
  seq = journal.append(run, seq, group);
  writeSync(1, `${seq}\n`);
}
