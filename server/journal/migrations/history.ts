import { runsAndLines } from './0001-runs-and-lines.ts';
import { hands } from './0002-hands.ts';
import { checksums } from './0003-checksums.ts';
import type { Migration } from './migration.ts';

/** Every migration, oldest first. */
export const HISTORY: readonly Migration[] = [runsAndLines, hands, checksums];
