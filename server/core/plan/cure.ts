/** A cure of a warning that forbids the cut: something that can be done with what the shop has, and was planned to see that it helps. */
import type { Routine } from '../routine/routine.ts';
import type { Warning } from '../warning.ts';

export interface PlanWarning extends Warning {
  /** Of one that forbids: each was planned, and then nothing of this code is left and nothing else that forbids has come. */
  readonly cures?: readonly Cure[];
}

export type Cure = ChangeOfJob | OtherRoutine;

/** The job planned with this change no longer has the warning, and no other that forbids. */
export interface ChangeOfJob {
  readonly kind:
    | 'closer marks'
    | 'narrower blade'
    | 'more set'
    | 'follow the middle'
    | 'other side'
    | 'heel length'
    | 'head length'
    | 'thinner edge'
    | 'thinner laminations'
    | 'deeper moulding'
    | 'state it';
  readonly text: string;
  /** A JSON Merge Patch (RFC 7396) of the job file. */
  readonly change: JobChange;
}

/** The same job, run in another routine. */
export interface OtherRoutine {
  readonly kind: 'routine';
  readonly text: string;
  readonly routine: Routine;
  readonly needs: 'measuring wheel';
}

/** Fields of the job file; null takes a field out. Lengths carry their unit. */
interface JobChange {
  readonly [section: string]: { readonly [field: string]: string | number | null | readonly (string | number)[] };
}
