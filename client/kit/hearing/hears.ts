/** Who hears what: a headset is for one person, and a person is told only what is theirs. */
import type { Call } from '../../../server/core/run/engine/events.ts';

/** `stops`: stops and warnings only. */
export type Hears = 'bevels' | 'stops' | 'stops and marks' | 'everything';

export const HEARS_WORDS: Readonly<Record<Hears, { readonly word: string; readonly what: string }>> = {
  bevels: { word: 'Bevels', what: 'for the tilt hand: every bevel, stops and warnings' },
  stops: { word: 'Stops only', what: 'stops and warnings, else the blade alone' },
  'stops and marks': { word: 'Stops and marks', what: 'and a short roll as each mark reaches the blade' },
  everything: { word: 'Everything', what: 'one loudspeaker for both people' },
};

/** What each page offers. Nobody chooses nothing: the first is what holds until somebody chooses. */
export const HEARS_HERE = {
  wheel: ['bevels', 'everything', 'stops'],
  sawyer: ['everything', 'stops', 'stops and marks'],
} as const satisfies Readonly<Record<'wheel' | 'sawyer', readonly [Hears, ...Hears[]]>>;

/** True where a listener of that choice is to hear this call. A stop and a warning are for everyone. */
export function isHeardBy(hears: Hears, { to, mark }: Pick<Call, 'to' | 'mark'>): boolean {
  if (hears === 'everything' || to === 'everyone') return true;
  if (to === 'tilt hand') return hears === 'bevels';
  // The sawyer's: a warning, or a mark that he has asked to be told.
  return hears === 'stops and marks' || (hears === 'stops' && mark === undefined);
}

/** That no bevel is heard by this listener: somebody else's ears must. */
export const isWithoutBevels = (hears: Hears): boolean => hears === 'stops' || hears === 'stops and marks';
