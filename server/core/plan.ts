/** The plan: everything that can be known before the blade turns. Lengths in mm, angles in degrees, feeds in m/min. */
import type { Cure } from './cure.ts';
import type { Notation } from './figures/notation.ts';
import type { MovedPoint } from './hull/fairOffsets.ts';
import type { VoiceChoice } from './job.ts';
import type { PlannedMark } from './plannedMark.ts';
import type { RipPlan } from './rip/ripPlan.ts';
import type { SawTruth } from './rip/sawTruth.ts';
import type { Routine } from './run/state.ts';
import type { BendPlan } from './stack/bendPlan.ts';

export type { PlannedMark };

export interface Plan {
  readonly format: 'by-the-mark/plan@1';
  readonly title: string;
  readonly units: 'mm' | 'in';
  /** How its lengths are written for people; JSON has mm. */
  readonly notation: Notation;
  readonly frame: {
    readonly label: string;
    readonly side: 'port' | 'starboard';
    readonly sidingMm: number;
    readonly mouldingMm: number;
    readonly mouldedFace: 'forward' | 'aft';
  };
  readonly marks: readonly PlannedMark[];
  /** The fair bevel curve for drawing: about 200 points heel to head, beside the rows it was faired from. */
  readonly curve: readonly { readonly girthMm: number; readonly bevelDeg: number }[];
  readonly pickedUp: readonly { readonly girthMm: number; readonly bevelDeg: number; readonly suspect: boolean }[];
  readonly girthMm: number;
  readonly stock: { readonly thicknessMm: number; readonly widthMm: number; readonly lengthMm: number };
  readonly fairing: {
    readonly rmsDeg: number;
    readonly suspects: readonly Suspect[];
    /** Plans made before have none. */
    readonly measureAgain?: readonly MeasureAgain[];
  };
  /** Which end of the stock meets the blade first. */
  readonly leads: 'heel' | 'head';
  /** False until `frame.side`, `frame.mouldedFace` and `saw.leans` all stand in the job: then `leads` rests on defaults. */
  readonly leadsIsSure: boolean;
  /** Which edge of the outer wedge is thicker. */
  readonly thickEdge: 'forward' | 'aft';
  /** +1 where the saw's positive tilt cuts a standing bevel, -1 where it cuts an under bevel: call = hand x sawn bevel. */
  readonly hand: 1 | -1;
  /** How it is fed and laid, where the bevel changes hand, what is left, where the wedges end. Plans made before have none. */
  readonly rip?: RipPlan;
  /** The bend of both wedges at every mark, and what cures it. Plans made before have none. */
  readonly bend?: BendPlan;
  /** Square at zero, corrections and looseness: what is done so that the saw tells the truth. Plans made before have none. */
  readonly sawTruth?: SawTruth;
  /** Where the bevel stands farthest off an even turn from mark to mark. Plans made before have none. */
  readonly betweenMarks?: { readonly worstDeg: number; readonly girthMm: number };
  readonly twist: { readonly maxDegPerM: number; readonly limitDegPerM: number };
  readonly pace: Pace;
  readonly stack: StackPlan;
  /** What the saw, the crew and the voice are taken to be. */
  readonly saw: {
    /** Smallest and greatest tilt that the saw reaches. */
    readonly tiltDeg: readonly [number, number];
    readonly readoutDeg: number;
    /** Pairs of (readout shown, true tilt); empty where the readout is true. */
    readonly readoutTable: readonly (readonly [number, number])[];
    readonly degreesPerTurn: number;
    /** As in the job; left out where it does not say. */
    readonly turnsTable?: readonly (readonly [number, number])[];
    readonly backlashTurns?: number;
    readonly leans: 'left' | 'right';
    /** What the readout shows where the blade is square, where a run was made for that: the table is shifted by it already. */
    readonly squareDeg?: number;
    readonly kerfMm: number;
  };
  readonly crew: {
    readonly reactionS: number;
    readonly turnsPerS: number;
    readonly feedMPerMin: number;
    /** Whose figures these are, where the plan was made for one of the crew, and which of them were learnt of that person. */
    readonly tiltHand?: string;
    readonly learnt?: readonly ('reactionS' | 'turnsPerS')[];
  };
  readonly voice: VoiceChoice;
  /** Where the shape comes from a table of offsets. */
  readonly offsets?: OffsetsPlan;
  /** Where a pick-up is held against a table of offsets. */
  readonly against?: PickUpAgainst;
  readonly defaults: readonly string[];
  /** Of a run that was made in spite of what forbids its cut: why, in a person's words, and the codes of what forbade it. */
  readonly despite?: { readonly words: string; readonly codes: readonly WarningCode[] };
  readonly warnings: readonly Warning[];
  readonly cautions: readonly string[];
}

export interface Suspect {
  /** Counted from the first data row = 1. */
  readonly row: number;
  readonly girthMm: number;
  readonly foundDeg: number;
  readonly fairDeg: number;
  readonly reason: string;
}

/** A row that is in the curve and wants another reading at the same girth. */
export interface MeasureAgain {
  readonly row: number;
  readonly girthMm: number;
  readonly foundDeg: number;
  /** What the other rows lead to there. */
  readonly othersDeg: number;
  readonly reason: string;
}

export type PaceLimit = 'words' | 'reaction' | 'wheel' | 'twist' | 'saw';
/** Limits and duration are of the routine `mark by mark`, which needs no more than a pedal. */
export interface Pace {
  readonly limitMPerMin: number;
  /** What limits the slowest interval: the greatest share of its time, the saw, or `twist` (see `intervals`). */
  readonly limitedBy: PaceLimit;
  /** The whole rip at the crew's own feed, or at the limit where that is slower. */
  readonly durationS: number;
  /**
   * In the order of the run: the time that the call for `toMark` needs, and the feed that leaves it, unless the saw takes less.
   * `twist` instead of the greatest share where the bevel itself changes faster than the blade follows: no feed cures that.
   */
  readonly intervals: readonly {
    readonly fromMark: number;
    readonly toMark: number;
    readonly lengthMm: number;
    readonly wordsS: number;
    readonly reactionS: number;
    readonly wheelS: number;
    readonly limitMPerMin: number;
    readonly limitedBy: PaceLimit;
  }[];
  /** The pace of every routine, `mark by mark` among them. Plans made before there were several have none. */
  readonly routines?: Readonly<Record<Routine, RoutinePace>>;
  /** Where the crew's own feed is faster than the limit: what helps. Empty where it is not. */
  readonly suggestions?: readonly PaceSuggestion[];
}

export interface RoutinePace {
  /** The slowest interval's; null where nothing limits the routine on this frame. */
  readonly limitMPerMin: number | null;
  readonly limitedBy: PaceLimit | null;
  readonly durationS: number;
  /** The intervals of `Pace.intervals`, in the same order. */
  readonly intervals: readonly { readonly limitMPerMin: number | null; readonly limitedBy: PaceLimit | null }[];
}

/** What helps where the crew feeds too fast for `mark by mark`; each figure is rounded down from what a new plan then finds. */
export type PaceSuggestion =
  /** Feed no faster than this from the one mark to the other; at the crew's own feed elsewhere, the rip then takes so long. */
  | {
      readonly kind: 'slow';
      readonly fromMark: number;
      readonly toMark: number;
      readonly toMPerMin: number;
      readonly durationS: number;
    }
  /** Marks evenly so far apart between two marks that stay: the girths of all marks then, and what that stretch then allows. */
  | {
      readonly kind: 'marks';
      readonly fromMark: number;
      readonly toMark: number;
      readonly spacingMm: number;
      readonly girthsMm: readonly number[];
      /** How many marks that is more than now; below zero: fewer. */
      readonly moreMarks: number;
      readonly allowsMPerMin: number;
    }
  /** Fewer words in a call, and the feed that `mark by mark` then allows over the whole stock. */
  | {
      readonly kind: 'words';
      readonly form: VoiceChoice['form'];
      readonly numbers: VoiceChoice['numbers'];
      readonly allowsMPerMin: number;
    }
  /** Another routine, which allows the crew's own feed. */
  | { readonly kind: 'routine'; readonly routine: Routine; readonly allowsMPerMin: number | null };

export interface StackPlan {
  readonly laminationMm: number;
  readonly species: string;
  /** Parallel laminations between the wedges at the mark where the wedges are thickest. */
  readonly plies: number;
}

/** What the table of offsets tells of the frame beside its bevels. */
export interface OffsetsPlan {
  readonly file: string;
  readonly atMm: number;
  readonly cantDeg: number;
  readonly plankingMm: number;
  /** The moulded edge from heel to head, in the frame's own plane. */
  readonly edge: readonly { readonly girthMm: number; readonly yMm: number; readonly zMm: number }[];
  readonly knuckles: readonly { readonly girthMm: number; readonly belowDeg: number; readonly aboveDeg: number }[];
  /** Where the straight cut stands farthest off the planking at mid-siding. */
  readonly hollow: { readonly mostMm: number; readonly girthMm: number };
  /** How far a plain stack, without bevelled wedges, would run off the frame's plane; positive aft. */
  readonly runOff: {
    readonly places: readonly { readonly girthMm: number; readonly offMm: number }[];
    readonly atHeadMm: number;
    readonly slopeAtHead: number;
  };
  readonly fairing: { readonly toleranceMm: number; readonly moved: readonly MovedPoint[] };
}

export interface PickUpAgainst {
  readonly atMm: number;
  /** The girth that the offsets give the frame. */
  readonly girthMm: number;
  /** Picked up (and faired) less the offsets' tangent bevels. */
  readonly meanDeg: number;
  readonly rmsDeg: number;
  /** Where along the boat the offsets come nearest to what was picked up. */
  readonly bestAtMm: number;
  readonly bestRmsDeg: number;
  readonly rows: readonly {
    readonly girthMm: number;
    readonly pickedUpDeg: number;
    readonly offsetsDeg: number;
    readonly suspect: boolean;
  }[];
  /** The frames before and after, of the job's list. */
  readonly neighbours: readonly { readonly atMm: number; readonly rmsDeg: number }[];
}

export type WarningCode =
  | 'suspect-bevel'
  | 'measure-again'
  | 'nothing-checked'
  | 'which-end-unsure'
  | 'both-hands'
  | 'tilt-out-of-reach'
  | 'twist'
  | 'quick-turn'
  | 'pace'
  | 'bend'
  | 'lamination-bend'
  | 'between-marks'
  | 'stack-too-thin'
  | 'readout-table'
  | 'turns-table'
  | 'pattern-length'
  | 'short-interval'
  | 'own-order'
  | 'knuckle'
  | 'beyond-offsets'
  | 'hollow'
  | 'off-the-fair-line'
  | 'uncertain-bevel'
  | 'apart-from-offsets';
export interface Warning {
  readonly code: WarningCode;
  readonly message: string;
  readonly mark?: number;
  /** True where the frame must not be sawn so (`forbids.ts`); left out for advice. */
  readonly forbids?: true;
  /** Of one that forbids: each was planned, and then nothing of this code is left and nothing else that forbids has come. */
  readonly cures?: readonly Cure[];
}
