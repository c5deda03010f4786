import type { HandTraits } from '../../server/core/hand/traits.ts';

export const USUAL_HAND = 'the usual hand';

/** The usual hand, and hands that are worse than it in what the results may rest on. */
export const MODELLED_HANDS: Readonly<Record<string, (hand: HandTraits) => HandTraits>> = {
  [USUAL_HAND]: (hand) => hand,
  // The crossover model as it is without preview.
  'no look-ahead': (hand) => ({ ...hand, follows: { ...hand.follows, lookAheadMs: 0, smoothingMs: 0 } }),
  // Planned and led as for the usual one.
  'half the rate at the wheel': (hand) => ({ ...hand, degPerMs: hand.degPerMs / 2 }),
  'twice the reaction': (hand) => ({
    ...hand,
    reactionMs: 2 * hand.reactionMs,
    follows: { ...hand.follows, delayMs: 2 * hand.follows.delayMs },
  }),
};
