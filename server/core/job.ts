/** The job as the shipwright states it, parsed: lengths in millimetres, angles in degrees, defaults filled in and named. */

import type { Notation } from './figures/notation.ts';
import type { OffsetTable } from './hull/offsets.ts';
import type { VoiceChoice } from './words/voiceChoice.ts';

/** No plan has more marks. */
export const MOST_MARKS = 2000;

export interface Job {
  readonly title: string;
  /** The units that bare numbers count in; inside, everything is millimetres. */
  readonly units: 'mm' | 'in';
  /** How the user writes lengths, and so how the program does. */
  readonly notation: Notation;
  readonly frame: {
    readonly label: string;
    readonly side: 'port' | 'starboard';
    readonly sidingMm: number;
    readonly mouldingMm: number;
    readonly mouldedFace: 'forward' | 'aft';
  };
  readonly shape: PickUp | FromOffsets;
  readonly marks: MarkPlacing;
  readonly saw: Saw;
  /** What the job says of the rip itself; the rest is as in `saw/sawDefaults.ts`. */
  readonly rip?: Partial<RipChoices>;
  readonly crew: { readonly reactionS: number; readonly turnsPerS: number; readonly feedMPerMin: number };
  readonly stack: { readonly laminationMm: number; readonly species: string };
  readonly voice: VoiceChoice;
  /** Dotted names of the fields that the job left out and that were filled in, for instance `saw.leans`. */
  readonly defaults: readonly string[];
}

/** Bevels measured on the boat, heel first; the girth never falls, and rows of the same girth are readings of one place. */
export interface PickUp {
  readonly kind: 'pick-up';
  readonly file: string;
  readonly rows: readonly PickUpRow[];
  /** A row that stands off the fair curve by clearly more than this is a suspect. */
  readonly errorDeg: number;
  /** The moulded edge from heel to head, where a pattern was taken. */
  readonly pattern?: { readonly file: string; readonly points: readonly PatternPoint[] };
  /** Thickness of the batten on which the girths were marked in the boat; left out where they were taken along the plank face. */
  readonly battenMm?: number;
  /** The lines plan that the pick-up is held against, where there is one. */
  readonly against?: FromOffsets;
}

/** The frame as the lines plan has it. */
export interface FromOffsets {
  readonly kind: 'offsets';
  readonly file: string;
  readonly table: OffsetTable;
  /** Where the plane of the moulded face meets the middle line. */
  readonly atMm: number;
  /** 0 athwartships; positive: the outer end stands farther aft. */
  readonly cantDeg: number;
  /** What is deducted where the offsets are to the outside of the planking. */
  readonly plankingMm: number;
  /** How far fairing may move a point; undefined: as far as the table's own rounding has. */
  readonly fairingMm?: number;
  /** The user has looked up what seems to be a slip of the pen: the table is taken as it stands. */
  readonly isAsDrawn: boolean;
  /** Where the boat's frames stand, for all of them in one go; empty where nobody has said. */
  readonly framesMm: readonly number[];
}
export interface PickUpRow {
  readonly girthMm: number;
  /** Standing positive, under negative. */
  readonly bevelDeg: number;
  readonly weight: number;
  readonly note?: string;
}
export interface PatternPoint {
  readonly yMm: number;
  readonly zMm: number;
}

export type MarkPlacing =
  | { readonly kind: 'spacing'; readonly spacingMm: number }
  | { readonly kind: 'at'; readonly girthsMm: readonly number[] }
  | { readonly kind: 'tolerance'; readonly toleranceDeg: number };

export interface Saw {
  readonly kerfMm: number;
  readonly bladeWidthMm: number;
  readonly bladeThicknessMm: number;
  /** Smallest and greatest tilt that the saw reaches. */
  readonly tiltDeg: readonly [number, number];
  /** The side, seen by the sawyer, to which the blade's top leans at positive tilt. */
  readonly leans: 'left' | 'right';
  /** Height of the tilt axis above the table. */
  readonly pivotHeightMm: number;
  readonly degreesPerTurn: number;
  /** Pairs of (turns of the handwheel, true tilt), both rising, where a turn is not worth the same everywhere. */
  readonly turnsTable?: readonly (readonly [number, number])[];
  /** Turns that the handwheel goes through before the tilt follows, when the way of turning changes; left out: none to speak of. */
  readonly backlashTurns?: number;
  /** The step of the readout. */
  readonly readoutDeg: number;
  /** Pairs of (readout shown, true tilt by test block), readout rising. Empty: the readout is true. */
  readonly readoutTable: readonly (readonly [number, number])[];
  /** The fastest feed that saw and blade take in this depth; left out where nobody has said. */
  readonly feedMPerMin?: number;
}

/** What a shop may choose about a rip. */
export interface RipChoices {
  /**
   * `along a fence`: fed straight along a fence, so the cut runs straight at the height of the tilt axis. `along a line`: the
   * sawyer steers so that it runs straight at a height of the shop's choice.
   */
  readonly feeds: 'along a fence' | 'along a line';
  /** Along a line: the height above the table at which the cut runs straight. Left out: half the siding, through the middle. */
  readonly lineHeightMm?: number;
  readonly thinnestEdgeMm: number;
  readonly cleaningUpMm: number;
  readonly endWasteMm: number;
  /** Whose bevels are right where the frame turns and one cut cannot suit both wedges. */
  readonly favours: 'outer' | 'both';
  /** How far the frame goes on beyond its first and its last mark, along the moulded edge. */
  readonly heelBeyondMm: number;
  readonly headBeyondMm: number;
}
