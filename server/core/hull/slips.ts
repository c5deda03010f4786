import type { Problem } from '../errors.ts';
import type { OffsetTable } from './offsets.ts';

export const slipsIn = (_table: OffsetTable): readonly Problem[] => [];
