/**
 * The program in a few files, as tests start it: read as it lies, its hundreds of files take a second and more of a core at every
 * start. Made anew when a file of it changes. Where a file asks for its own address it is told the one in the house, so that
 * all that lies beside it is found there.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build, type Plugin } from 'vite';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const KEPT = join(ROOT, 'node_modules/.cache/by-the-mark-program');

let made: Promise<string> | undefined;

/** The file to start. */
export function bundledProgram(): Promise<string> {
  made ??= make();
  return made;
}

async function make(): Promise<string> {
  const dir = join(KEPT, stamp());
  if (!existsSync(dir)) {
    await mkdir(KEPT, { recursive: true });
    const making = mkdtempSync(join(KEPT, 'making-'));
    await bundleInto(making);
    // Of several test files that make it at once the first one is kept.
    try {
      renameSync(making, dir);
    } catch {
      rmSync(making, { recursive: true, force: true });
    }
  }
  return join(dir, 'main.js');
}

/** Changes with every file of the program. */
function stamp(): string {
  const hash = createHash('sha256');
  for (const room of ['server', 'audio'])
    for (const name of readdirSync(join(ROOT, room), { recursive: true, encoding: 'utf8' }).sort()) {
      if (!name.endsWith('.ts')) continue;
      const { mtimeMs, size } = statSync(join(ROOT, room, name));
      hash.update(`${room}/${name} ${mtimeMs} ${size}\n`);
    }
  return hash.digest('hex').slice(0, 16);
}

const ownAddress: Plugin = {
  name: 'own-address',
  enforce: 'pre',
  transform: (code, id) =>
    code.includes('import.meta.url')
      ? code.replaceAll('import.meta.url', JSON.stringify(pathToFileURL(id.split('?')[0] ?? id).href))
      : null,
};

async function bundleInto(outDir: string): Promise<void> {
  await build({
    root: ROOT,
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    plugins: [ownAddress],
    build: {
      ssr: join(ROOT, 'server/main.ts'),
      outDir,
      emptyOutDir: false,
      target: 'node20',
      minify: false,
      rolldownOptions: { output: { entryFileNames: 'main.js', chunkFileNames: '[name]-[hash].js' } },
    },
  });
}
