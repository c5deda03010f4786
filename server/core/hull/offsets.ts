/** The table of offsets, parsed: what the lines plan says of the hull's shape. x grows aft, z upward; y is the half-breadth. */

/** Where a figure stands in its table. */
export interface Cell {
  readonly row: number;
  readonly column: string;
  /** What stands there. */
  readonly text: string;
}

export interface OffsetPoint {
  readonly yMm: number;
  readonly zMm: number;
  /** The section may turn sharply here: a chine, a knuckle. */
  readonly isKnuckle: boolean;
  readonly yCell: Cell;
  readonly zCell: Cell;
}

/** Its points run from the keel up; at least two, no two neighbours in one place. */
export interface HullStation {
  readonly label: string;
  readonly xMm: number;
  /** Where its place stands; none where nothing in the table says it for this station. */
  readonly xCell?: Cell;
  readonly points: readonly OffsetPoint[];
}

/** Stations from forward aft, at least two; every one has as many knuckles as the others. */
export interface OffsetTable {
  readonly file: string;
  readonly stations: readonly HullStation[];
}
