import type { Cell, OffsetPoint } from '../../core/hull/offsets.ts';

/** A station as it was read, before its shape is looked at: where it stands has its cell too. */
export interface DraftStation {
  readonly label: string;
  readonly xMm: number;
  readonly xCell: Cell;
  readonly points: readonly OffsetPoint[];
}
