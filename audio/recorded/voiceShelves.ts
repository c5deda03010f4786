import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { voiceKey, voiceName } from '../../server/wire/kept/voices.ts';
import { type ClipFolder, openClipFolder } from '../clipFolder.ts';

/** Where one voice lies: its recordings, and beside them the clips that were made of these. */
export interface Shelf {
  readonly name: string;
  readonly folder: string;
  readonly clips: ClipFolder;
}

/** The voices in a folder, each in a folder of its own; what else lies there is passed over. */
export function openVoiceShelves(home: string) {
  const clipFolders = new Map<string, ClipFolder>();

  function named(name: string): Shelf {
    const folder = join(home, name);
    const clips = clipFolders.get(name) ?? openClipFolder(join(folder, 'clips'));
    clipFolders.set(name, clips);
    return { name, folder, clips };
  }

  async function all(): Promise<readonly Shelf[]> {
    const entries = await readdir(home, { withFileTypes: true }).catch((error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return [];
      throw error;
    });
    return entries
      .filter((entry) => entry.isDirectory() && voiceName(entry.name) !== undefined)
      .map(({ name }) => named(name))
      .sort((a, b) => a.name.localeCompare(b.name));
  }

  return {
    /** By name. */
    all,
    /** Upper and lower case are the same voice. */
    find: async (name: string): Promise<Shelf | undefined> =>
      (await all()).find((each) => voiceKey(each.name) === voiceKey(name)),
    /** Where a voice of this name is to lie, whether or not it is there. */
    named,
    async takeAway({ name, folder }: Shelf): Promise<void> {
      clipFolders.delete(name);
      await rm(folder, { recursive: true, force: true });
    },
  };
}
