/** Which strip it is, whatever the title; and what shows on the tab that comes to lie under the next piece. */
import { expect, test } from 'vitest';
import type { Item, TextItem } from '../../server/paper/draw/page.ts';
import { reachOf } from '../../server/paper/draw/reach.ts';
import { drawStrip } from '../../server/paper/strip/drawStrip.ts';
import { flagged, stripMarks } from '../../server/paper/strip/flags.ts';
import { MEDIA } from '../../server/paper/strip/media.ts';
import { layStrip, tabShowsTo } from '../../server/paper/strip/stripPages.ts';
import { stripLetters } from '../../server/wire/message/markCode.ts';
import { STRIP_SIZES } from '../../server/wire/request/papers.ts';
import { demoPlan } from '../kit/demoPlan.ts';

const textsOf = (items: readonly Item[]): readonly TextItem[] =>
  items.flatMap((item) => (item.kind === 'text' ? [item] : []));

test.each(STRIP_SIZES)('%s: the letters stand whole and in full size, the title is what is cut short', async (size) => {
  const plan = { ...(await demoPlan()), title: `Boat ${'of a very long name '.repeat(5)}9` };
  const { build, flags } = flagged(stripMarks(plan), MEDIA[size].builds);
  const texts = textsOf(drawStrip(plan, { build, flags }, true, []));
  const letters = texts.find(({ text }) => text === `strip ${stripLetters(plan)}`);
  const title = texts.find(({ text }) => text.startsWith('Boat'));
  if (letters === undefined) throw new Error('no letters');
  expect(letters.sizeMm).toBeGreaterThanOrEqual(3);
  expect(reachOf(letters).rightMm).toBeLessThan(-20);
  // Where the check leaves no room for a title on a tape it is left out rather than the check.
  if (size !== 'tape24' || title !== undefined) {
    expect(title?.text.endsWith('…')).toBe(true);
    expect(title?.sizeMm).toBeGreaterThanOrEqual(0.85 * letters.sizeMm - 1e-9);
  }
  expect(texts.some(({ text }) => /mark 13 to mark 1: [\d.]+ mm$/.test(text))).toBe(true);
});

test.each(['a4', 'letter'] as const)('%s: no sliver of the next flag on a tab', async (size) => {
  const { pieces, flags, pages } = layStrip(await demoPlan(), size);
  for (const piece of pieces.filter(({ isLast }) => !isLast)) {
    const to = tabShowsTo(piece, flags);
    const begun = flags.filter(({ fromMm, toMm }) => fromMm >= piece.toMm && fromMm < to && toMm > to);
    expect(begun).toEqual([]);
    expect(to).toBeGreaterThan(piece.toMm + 1);
    // What is printed of the strip ends there; the window of the tab itself goes on.
    const windows = (pages[piece.page]?.items ?? []).flatMap((item) =>
      item.kind === 'window' && item.fromMm[0] === piece.fromMm ? [item.toMm[0]] : [],
    );
    expect(Math.min(...windows)).toBeCloseTo(to, 9);
  }
  expect(pieces.some((piece) => !piece.isLast && tabShowsTo(piece, flags) < piece.toMm + 5)).toBe(true);
});
