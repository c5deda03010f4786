import { resolve } from 'node:path';
import envPaths from 'env-paths';
import type { Options } from './options.ts';

/** Where everything is kept: as `--data` says, otherwise the user's own data folder. */
export const dataDirOf = ({ data }: Options): string =>
  resolve(data === undefined ? envPaths('by-the-mark', { suffix: '' }).data : String(data));
