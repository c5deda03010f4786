import { writeFile } from 'node:fs/promises';
import type { Options } from './options.ts';
import { UserMistake } from './userMistake.ts';

/** The file that `--out` names. */
export function outFile(command: string, { out }: Options): string {
  if (typeof out === 'string' && out !== '') return out;
  throw new UserMistake([`${command}: no --out given; wanted the name of the PDF file to write`]);
}

/** Writes the PDF; a place that cannot be written to is the user's to mend. */
export async function writePaper(file: string, bytes: Uint8Array): Promise<void> {
  try {
    await writeFile(file, bytes);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const found = code === undefined ? undefined : FOUND[code];
    if (found === undefined) throw error;
    throw new UserMistake([`--out ${file}: found ${found}; wanted a file that can be written`]);
  }
}

const FOUND: Readonly<Record<string, string>> = {
  ENOENT: 'no such folder',
  ENOTDIR: 'no such folder',
  EISDIR: 'a folder',
  EACCES: 'a place that may not be written to',
  EPERM: 'a place that may not be written to',
  EROFS: 'a disk that may not be written to',
  ENOSPC: 'a full disk',
};
