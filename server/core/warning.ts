/** What was found while planning that a person must know: a code for programs, a sentence for people. */

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
}
