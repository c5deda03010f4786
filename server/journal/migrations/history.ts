import { runsAndLines } from './0001-runs-and-lines.ts';
import type { Migration } from './migration.ts';

/** Every migration, oldest first. */
export const HISTORY: readonly Migration[] = [runsAndLines];
