import { posix } from 'node:path';
import type { Source } from './readSource.ts';

/** Rooms that meet in `app.ts` and nowhere else. */
export const SIBLINGS = ['signals', 'journal', 'live', 'workers', 'paper', 'web', 'demo', 'audio'] as const;
export type Room = (typeof SIBLINGS)[number] | 'core' | 'wire' | 'text' | 'app' | 'shell' | 'client' | 'test';

/** The room that a file stands in. `shell`: what is started from a shell, that is `main`, `cli`, their commands and doors. */
export function roomOf(path: string): Room {
  const [root = '', folder = ''] = path.split('/');
  if (root === 'client' || root === 'test' || root === 'audio') return root;
  if (path === 'server/app.ts') return 'app';
  if (path.split('/').length === 2 || folder === 'commands') return 'shell';
  if (folder === 'core' || folder === 'wire' || folder === 'text') return folder;
  const sibling = SIBLINGS.find((name) => name === folder);
  if (sibling === undefined) throw new Error(`${path} stands in no room: see test/architecture/rooms.ts`);
  return sibling;
}

export const isRelative = (specifier: string): boolean => specifier.startsWith('.');

/** Where a relative import leads, from the top of the house; what follows a `?` is the bundler's. */
export const targetOf = (source: Source, specifier: string): string =>
  posix.join(posix.dirname(source.path), specifier.replace(/\?.*$/, ''));

/** The package of an import: `preact` of `preact/hooks`, `node:` of `node:fs`. */
export function packageOf(specifier: string): string {
  if (specifier.startsWith('node:')) return 'node:';
  const [first = '', second = ''] = specifier.split('/');
  return first.startsWith('@') ? `${first}/${second}` : first;
}
