/** Files that a user or a job names: plain files only, and no longer than they may be. */
import { constants } from 'node:fs';
import { type FileHandle, open, realpath } from 'node:fs/promises';
import { isAbsolute, relative, sep } from 'node:path';
import type { Problem } from '../../core/errors.ts';

/** Far over what is parsed; only so that a film given by mistake is not read into memory. */
const FILE_LIMIT_BYTES = 16_000_000;

export interface FileAsked {
  readonly path: string;
  /** How the user calls it. */
  readonly shown: string;
  /** What it should be, for the refusal. */
  readonly wanted: string;
  /** The folder that it must lie in, wherever links lead. */
  readonly within?: string;
}
type FileText =
  | { readonly ok: true; readonly text: string | undefined }
  | { readonly ok: false; readonly problem: Problem };

/** The text of a file, undefined if there is none. Devices, pipes and folders are refused; nothing is waited for. */
export async function readNamedFile({ path, shown, wanted, within }: FileAsked): Promise<FileText> {
  const refuse = (found: string, then = wanted, code: Problem['code'] = 'missing-file'): FileText => ({
    ok: false,
    problem: { code, at: { file: shown }, found, wanted: then },
  });
  let file: FileHandle | undefined;
  try {
    const place = await realpath(path);
    if (within !== undefined && !isInside(place, await realpath(within)))
      return refuse('a file outside the folder of the job', 'a file in that folder, or in one below it');
    // A pipe would be waited for until somebody writes into it.
    file = await open(place, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const stat = await file.stat();
    if (stat.isDirectory()) return refuse('a folder');
    if (!stat.isFile()) return refuse('a device or a pipe');
    if (stat.size > FILE_LIMIT_BYTES)
      return refuse(`${stat.size} bytes`, `at most ${FILE_LIMIT_BYTES} bytes`, 'too-large');
    return { ok: true, text: await readAtMost(file, stat.size) };
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return { ok: true, text: undefined };
    if (code === 'EACCES' || code === 'EPERM') return refuse('a file that may not be read', 'one that may');
    if (code === 'ELOOP') return refuse('a link that leads back to itself');
    if (code === 'ENXIO' || code === 'EIO' || code === 'ENODEV') return refuse('a device or a pipe');
    if (code === 'ENAMETOOLONG' || code === 'ERR_INVALID_ARG_VALUE') return refuse('a name that no file can have');
    throw error;
  } finally {
    await file?.close();
  }
}

/** As much as it had when it was looked at, though it may grow meanwhile. */
async function readAtMost(file: FileHandle, bytes: number): Promise<string> {
  const buffer = Buffer.alloc(bytes);
  let filled = 0;
  while (filled < bytes) {
    const { bytesRead } = await file.read(buffer, filled, bytes - filled, null);
    if (bytesRead === 0) break;
    filled += bytesRead;
  }
  return buffer.toString('utf8', 0, filled);
}

function isInside(path: string, folder: string): boolean {
  const way = relative(folder, path);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}
