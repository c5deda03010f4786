import { randomUUID } from 'node:crypto';
import { open, readdir, readFile, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';

const UNFINISHED = /\.unfinished$/;

/** The file is whole or not there at all, even if the power fails: written beside, flushed, then renamed. */
export async function replaceFile(file: string, bytes: Uint8Array): Promise<void> {
  const beside = join(dirname(file), `${randomUUID()}.unfinished`);
  try {
    const handle = await open(beside, 'wx');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(beside, file);
  } catch (cause) {
    await rm(beside, { force: true });
    throw cause;
  }
}

/** Takes away what a killed server left half written. */
export async function clearUnfinished(folder: string): Promise<void> {
  const names = (await readdir(folder)).filter((name) => UNFINISHED.test(name));
  await Promise.all(names.map((name) => rm(join(folder, name), { force: true })));
}

/** The bytes of a file, none where it is not there. */
export async function readOrEmpty(file: string): Promise<Uint8Array> {
  try {
    return await readFile(file);
  } catch (cause) {
    if (cause instanceof Error && 'code' in cause && cause.code === 'ENOENT') return new Uint8Array(0);
    throw cause;
  }
}
