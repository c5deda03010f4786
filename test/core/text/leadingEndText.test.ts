import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { chalkSentence, whichWaySentence } from '../../../server/core/text/leadingEndText.ts';
import { cardsFor } from '../../../server/paper/sheets/cards.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { planned } from '../../kit/planned.ts';

/** Thick edge aft: a standing bevel on a forward moulded face, or an under one on an aft moulded face. */
const WAYS = (['starboard', 'port'] as const).flatMap((side) =>
  (['aft', 'forward'] as const).flatMap((thickEdge) =>
    (['right', 'left'] as const).flatMap((leans) =>
      (['forward', 'aft'] as const).map((mouldedFace) => ({ side, thickEdge, leans, mouldedFace })),
    ),
  ),
);

describe.each(WAYS)('a $side frame, thick edge $thickEdge, top leaning $leans, moulded face $mouldedFace', (way) => {
  const sign = (way.thickEdge === 'aft') === (way.mouldedFace === 'forward') ? 1 : -1;
  const plan = planned(
    aJob({
      frame: { side: way.side, mouldedFace: way.mouldedFace },
      shape: picked([0, 4 * sign], [900, 11 * sign], [1800, 2 * sign]),
      saw: { leans: way.leans },
    }),
  );
  /** Starboard, thick edge aft, leaning right: the head leads; each of port, thick edge forward, left lean turns it over. */
  const turns = [way.side === 'port', way.thickEdge === 'forward', way.leans === 'left'].filter(Boolean).length;
  const leads = turns % 2 === 0 ? 'head' : 'heel';

  test('is told in a sentence: which end first, which edge up, where the fence stands, which half is the outer wedge', () => {
    const follows = leads === 'head' ? 'heel' : 'head';
    expect(whichWaySentence(plan)).toBe(
      `The ${leads} leads: feed the stock ${leads} end first, the ${follows} end follows, with the ${way.thickEdge} edge up and ` +
        `the fence on the sawyer's ${way.leans === 'right' ? 'left' : 'right'}. The top of the blade leans to the ${way.leans}. ` +
        `The half at the fence becomes the outer wedge, thicker at its ${way.thickEdge} edge.`,
    );
  });

  test('and is written on the stock before it is sawn', () => {
    const words = chalkSentence(plan);
    expect(words).toContain(`${leads.toUpperCase()} on the end that leads`);
    expect(words).toContain(`${way.thickEdge.toUpperCase()} along the edge that is up`);
    expect(words).toContain('OUTER on the face at the fence and INNER on the face away from it');
  });

  test('where a line is followed nobody is told of a fence: the stock has a reference face, on the same side', () => {
    const followed: Plan = planned(
      aJob({
        frame: { side: way.side, mouldedFace: way.mouldedFace },
        shape: picked([0, 4 * sign], [900, 11 * sign], [1800, 2 * sign]),
        saw: { leans: way.leans },
        rip: { feeds: 'along a line' },
      }),
    );
    const words = `${whichWaySentence(followed)} ${chalkSentence(followed)}`;
    expect(words).not.toContain('fence');
    expect(words).toContain(`the reference face on the sawyer's ${way.leans === 'right' ? 'left' : 'right'}.`);
    expect(words).toContain(
      `The half at the reference face becomes the outer wedge, thicker at its ${way.thickEdge} edge.`,
    );
    expect(words).toContain('OUTER on the reference face and INNER on the face away from it');
    const card = cardsFor(followed).flatMap(({ lines }) => lines);
    expect(card.join(' ')).not.toContain('fence');
    expect(card.some((line) => line.startsWith('The half at the reference face is the outer wedge.'))).toBe(true);
  });
});
