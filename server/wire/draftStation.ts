/** A station as it was read, before its shape is looked at: every figure with its cell and what stands there. */
export interface DraftCell {
  readonly row: number;
  readonly column: string;
  readonly text: string;
}
export interface DraftPoint {
  readonly yMm: number;
  readonly zMm: number;
  readonly isKnuckle: boolean;
  readonly yCell: DraftCell;
  readonly zCell: DraftCell;
}
export interface DraftStation {
  readonly label: string;
  readonly xMm: number;
  readonly xCell: DraftCell;
  readonly points: readonly DraftPoint[];
}
