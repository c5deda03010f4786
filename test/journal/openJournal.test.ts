import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openJournal } from '../../server/journal/openJournal.ts';
import { journalContract } from '../contracts/journalContract.ts';

journalContract('SQLite', () => {
  const dir = mkdtempSync(join(tmpdir(), 'by-the-mark-'));
  const file = join(dir, 'in', 'folders', 'journal.sqlite');
  let journal = openJournal({ file });
  return {
    journal,
    reopen: () => {
      journal.close();
      journal = openJournal({ file });
      return journal;
    },
    done: () => {
      journal.close();
      rmSync(dir, { recursive: true });
    },
  };
});
