import type { Warning, WarningCode } from '../../../server/core/warning.ts';

const WORDS: Readonly<Record<WarningCode, string>> = {
  'suspect-bevel': 'Suspect',
  'measure-again': 'Measure again',
  'nothing-checked': 'Nothing checked',
  'which-end-unsure': 'Which end',
  'both-hands': 'Both hands',
  'tilt-out-of-reach': 'Out of reach',
  twist: 'Twist',
  'quick-turn': 'Quick turn',
  pace: 'Pace',
  bend: 'Bend',
  'lamination-bend': 'Laminations',
  'between-marks': 'Between marks',
  'stack-too-thin': 'Stack',
  'readout-table': 'Readout',
  'turns-table': 'Handwheel',
  'pattern-length': 'Pattern',
  'short-interval': 'Close marks',
  'own-order': 'Own words',
  knuckle: 'Knuckle',
  'beyond-offsets': 'Beyond the stations',
  hollow: 'Across the siding',
  'off-the-fair-line': 'Off the fair line',
  'uncertain-bevel': 'Uncertain bevel',
  'apart-from-offsets': 'Against the offsets',
};

/** One word for what a warning is about, and the mark where it stands at one. */
export const wordOfWarning = ({ code, mark }: Warning): string =>
  mark === undefined ? WORDS[code] : `${WORDS[code]}, mark ${mark}`;
