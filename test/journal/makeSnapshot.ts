import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { HISTORY } from '../../server/journal/migrations/history.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import { anyEntry } from './anyEntry.ts';
import { madeUpHands } from './madeUpHands.ts';
import { madeUpRun } from './madeUpRun.ts';

const name = join(import.meta.dirname, 'snapshots', `v${HISTORY.length}`);
if (existsSync(`${name}.sqlite`)) throw new Error(`${name}.sqlite is there already: a snapshot is made once`);

const journal = openJournal({ file: `${name}.sqlite` });
for (const [index, run] of ['a', 'b'].entries()) {
  journal.keepRun(madeUpRun(run, 1_700_000_000_000 + index));
  journal.append(run, 1, fc.sample(anyEntry, { numRuns: 80, seed: index }));
}
for (const hand of madeUpHands) journal.keepHand(hand);
const read = journal.names(100).map((name) => ({ run: journal.run(name), lines: [...journal.lines(name)] }));
journal.close();
writeFileSync(`${name}.json`, `${JSON.stringify(read)}\n`);
