import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { createApp } from '../app.ts';
import { JournalError } from '../journal/journalError.ts';
import type { RunView } from '../wire/message/messages.ts';
import { isSheetSize, SHEET_SIZES } from '../wire/request/papers.ts';
import { dataDirOf } from './door/dataDir.ts';
import type { Options } from './door/options.ts';
import type { Terminal } from './door/terminal.ts';
import { UserMistake } from './door/userMistake.ts';
import { outFile, writePaper } from './door/writePaper.ts';

/**
 * `record RUN --out FILE.pdf [--paper a4|letter] [--data DIR]`: asks the program itself, on a port of its own, so that it is the
 * very paper that the record page gives.
 */
export async function record(run: string, options: Options, { err }: Terminal): Promise<void> {
  const out = outFile('record', options);
  const size = typeof options.paper === 'string' ? options.paper : 'a4';
  if (!isSheetSize(size))
    throw new UserMistake([`--paper: found ${JSON.stringify(size)}; wanted one of ${SHEET_SIZES.join(', ')}`]);
  const dataDir = dataDirOf(options);
  if (!existsSync(join(dataDir, 'journal.sqlite')))
    throw new UserMistake([`record: found no runs in ${dataDir}; name the folder that keeps them with --data`]);
  const app = await openApp(dataDir);
  try {
    const answer = await fetch(`${app.url}/api/runs/${encodeURIComponent(run)}/paper/record.pdf?paper=${size}`);
    if (!answer.ok) {
      const { error } = (await answer.json()) as { error: { message: string } };
      throw new UserMistake([`record: ${error.message}`]);
    }
    await writePaper(out, new Uint8Array(await answer.arrayBuffer()));
    const view = (await (await fetch(`${app.url}/api/runs/${encodeURIComponent(run)}`)).json()) as RunView;
    if (view.record.damage !== null) err.write(`record: ${view.record.damage.message}\n`);
  } finally {
    await app.close();
  }
}

async function openApp(dataDir: string) {
  try {
    return await createApp({ dataDir, lan: false, host: '127.0.0.1', port: 0 });
  } catch (error) {
    if (!(error instanceof JournalError)) throw error;
    const help = error.code === 'in-use' ? '; a server that runs gives it too, on the record page of the run' : '';
    throw new UserMistake([`record: the data folder ${dataDir}: ${error.message}${help}`]);
  }
}
