/** What is to be printed, before it is a PDF: pages of texts and paths in millimetres, from the upper left corner. */

/** How black. Grey is for what is not read at the saw; nothing that matters is grey. */
export type Ink = 'black' | 'grey' | 'pale' | 'white';
export type Face = 'plain' | 'strong';

export interface TextItem {
  readonly kind: 'text';
  readonly text: string;
  /** Where its base line begins. */
  readonly xMm: number;
  readonly baseMm: number;
  /** Height of the type's em; a capital is 0.7 of it. */
  readonly sizeMm: number;
  readonly face: Face;
  readonly ink: Ink;
  /** Reads from below upward. */
  readonly isUpright: boolean;
}
export type Point = readonly [xMm: number, yMm: number];
export interface PathItem {
  readonly kind: 'path';
  readonly lines: readonly (readonly Point[])[];
  readonly isClosed: boolean;
  readonly fill?: Ink;
  readonly stroke?: { readonly ink: Ink; readonly widthMm: number; readonly dashMm?: readonly [number, number] };
}
/** Items of their own place: shifted, and nothing of them shows outside the window (before the shift). */
export interface WindowItem {
  readonly kind: 'window';
  readonly byMm: Point;
  readonly fromMm: Point;
  readonly toMm: Point;
  readonly items: readonly Item[];
}
export type Item = TextItem | PathItem | WindowItem;

export interface Page {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Comes out of the printer a quarter turned: for a strip that runs along a roll. */
  readonly isTurned: boolean;
  readonly items: readonly Item[];
}
