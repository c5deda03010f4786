/** The plan: everything that can be known before the blade turns. Lengths in mm, angles in degrees, feeds in m/min. */

import type { Notation } from '../figures/notation.ts';
import type { FairedRow, MeasureAgain, OffsetsPlan, PickUpAgainst, Suspect } from '../frame/findings.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import type { Pace } from '../routine/limits.ts';
import type { WarningCode } from '../warning.ts';
import type { VoiceChoice } from '../words/voiceChoice.ts';
import type { BendPlan } from './bendPlan.ts';
import type { PlanWarning } from './cure.ts';
import type { RipPlan } from './ripPlan.ts';
import type { SawTruth } from './sawCheck.ts';

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
  readonly pickedUp: readonly FairedRow[];
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
    /** The fastest feed that saw and blade take in this depth; left out where the job does not say. */
    readonly feedMPerMin?: number;
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
  readonly warnings: readonly PlanWarning[];
  readonly cautions: readonly string[];
}

export interface StackPlan {
  readonly laminationMm: number;
  readonly species: string;
  /** Parallel laminations between the wedges at the mark where the wedges are thickest. */
  readonly plies: number;
}
