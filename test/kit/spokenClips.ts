/**
 * What the embedded voice has once said for a test, kept until a line changes of what makes clips: a run speaks dozens of phrases,
 * and every test of the program makes one. Clips carry their own checksum, and the program speaks anew what is damaged.
 */
import { createHash } from 'node:crypto';
import { linkSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CLIP = /^[0-9a-f]{32}\.wav$/;

/** A data folder that holds nothing but clips. */
export function clipCache(): string {
  const hash = createHash('sha256');
  for (const room of ['audio/pcm', 'audio/voice'])
    for (const name of readdirSync(join(ROOT, room)).sort()) hash.update(readFileSync(join(ROOT, room, name)));
  return join(ROOT, 'node_modules/.cache/by-the-mark-clips', hash.digest('hex').slice(0, 16));
}

/** Puts into a program's data folder what was said before. */
export const lendClips = (dataDir: string): void => linkClips(clipCache(), dataDir);

/** Keeps what this program has said. */
export const keepClips = (dataDir: string): void => linkClips(dataDir, clipCache());

function linkClips(fromDir: string, toDir: string): void {
  const [from, to] = [join(fromDir, 'clips'), join(toDir, 'clips')];
  try {
    mkdirSync(to, { recursive: true });
    for (const name of readdirSync(from).filter((each) => CLIP.test(each))) linkOne(join(from, name), join(to, name));
  } catch {
    // Not there yet, gone already, or another disk: then it is said again.
  }
}

function linkOne(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
}
