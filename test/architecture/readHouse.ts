import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readSource, type Source } from './readSource.ts';

export interface House {
  readonly top: readonly string[];
  readonly sources: readonly Source[];
  /** Package names of package.json. */
  readonly dependencies: ReadonlySet<string>;
  readonly devDependencies: ReadonlySet<string>;
}

const ROOTS = ['server', 'client', 'audio', 'test'];
const PASSED_OVER = new Set(['node_modules', 'dist']);

export function readHouse(dir: string): House {
  const top = readdirSync(dir).filter(
    (name) => name !== 'node_modules' && !name.startsWith('.') && !name.endsWith('.tgz'),
  );
  const manifest = JSON.parse(readFileSync(join(dir, 'package.json'), 'utf8')) as Record<string, object | undefined>;
  return {
    top,
    sources: ROOTS.filter((root) => top.includes(root))
      .flatMap((root) => filesUnder(dir, root))
      .filter((path) => /\.(?:tsx?|mts|m?js)$/.test(path) && !path.endsWith('.d.ts'))
      .map((path) => readSource(path, readFileSync(join(dir, path), 'utf8'))),
    dependencies: new Set(Object.keys({ ...manifest.dependencies, ...manifest.optionalDependencies })),
    devDependencies: new Set(Object.keys(manifest.devDependencies ?? {})),
  };
}

function filesUnder(dir: string, folder: string): string[] {
  return readdirSync(join(dir, folder), { withFileTypes: true }).flatMap((entry) => {
    if (PASSED_OVER.has(entry.name)) return [];
    const path = `${folder}/${entry.name}`;
    return entry.isDirectory() ? filesUnder(dir, path) : [path];
  });
}
