/** Nothing runs off the page and no words stand on others, whatever is planned. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Item, Page } from '../../server/paper/draw/page.ts';
import { type Reach, reachOf } from '../../server/paper/draw/reach.ts';
import { makePaper, paperPages } from '../../server/paper/makePaper.ts';
import { PAPERS, SHEET_SIZES, STRIP_SIZES } from '../../server/wire/request/papers.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { readPages } from './printed.ts';
import { planFrom, someRecipes } from './someJobs.ts';

interface Placed extends Reach {
  readonly what: string;
  /** Words and codes: nothing else may stand on them. */
  readonly isSolid: boolean;
}

/** Every item where it shows on the page, cut off where its window ends. */
function placed(items: readonly Item[], [dx, dy] = [0, 0], window?: Reach): readonly Placed[] {
  return items.flatMap((item): readonly Placed[] => {
    const reach = reachOf(item);
    const there: Reach = {
      leftMm: Math.max(reach.leftMm + dx, window?.leftMm ?? Number.NEGATIVE_INFINITY),
      topMm: Math.max(reach.topMm + dy, window?.topMm ?? Number.NEGATIVE_INFINITY),
      rightMm: Math.min(reach.rightMm + dx, window?.rightMm ?? Number.POSITIVE_INFINITY),
      bottomMm: Math.min(reach.bottomMm + dy, window?.bottomMm ?? Number.POSITIVE_INFINITY),
    };
    if (there.leftMm >= there.rightMm || there.topMm >= there.bottomMm) return [];
    if (item.kind === 'window') return placed(item.items, [dx + item.byMm[0], dy + item.byMm[1]], there);
    // A code is one figure of many areas.
    const isCode = item.kind === 'path' && item.lines.length > 40;
    const what = item.kind === 'text' ? item.text : isCode ? 'a code' : 'a line';
    return [{ ...there, what, isSolid: item.kind === 'text' || isCode }];
  });
}

const EDGE_MM = 1.7;
function offThePage({ widthMm, heightMm, items }: Page): readonly string[] {
  return placed(items)
    .filter(
      ({ leftMm, topMm, rightMm, bottomMm }) =>
        leftMm < EDGE_MM || topMm < EDGE_MM || rightMm > widthMm - EDGE_MM || bottomMm > heightMm - EDGE_MM,
    )
    .map(({ what }) => what);
}

/** What of letters may touch: the air over and under them. */
const AIR = 0.2;
const overlap = (a: Reach, b: Reach): boolean => {
  const air = AIR * Math.min(a.bottomMm - a.topMm, b.bottomMm - b.topMm);
  return (
    a.leftMm + 0.05 < b.rightMm &&
    b.leftMm + 0.05 < a.rightMm &&
    a.topMm + air < b.bottomMm - air &&
    b.topMm + air < a.bottomMm - air
  );
};

function onEachOther({ items }: Page): readonly string[] {
  const words = placed(items)
    .filter(({ isSolid }) => isSolid)
    .toSorted((a, b) => a.leftMm - b.leftMm);
  return words.flatMap((word, index) => {
    const found: string[] = [];
    for (const other of words.slice(index + 1)) {
      if (other.leftMm >= word.rightMm) break;
      if (overlap(word, other)) found.push(`"${word.what}" and "${other.what}"`);
    }
    return found;
  });
}

test.each(PAPERS)('%s', (paper) => {
  const sizes = paper === 'strip' ? STRIP_SIZES : SHEET_SIZES;
  fc.assert(
    fc.property(someRecipes, fc.constantFrom(...sizes), (recipe, size) => {
      const plan = planFrom(recipe);
      const pages = paperPages({ plan, paper, size } as Parameters<typeof paperPages>[0]);
      expect(pages.flatMap(offThePage)).toEqual([]);
      expect(pages.flatMap(onEachOther)).toEqual([]);
    }),
    { numRuns: paper === 'strip' ? 8 : 12 },
  );
});

test('what is drawn is what is printed: poppler finds the words where they were measured to be', async () => {
  const plan = await demoPlan();
  const task = { plan, paper: 'sheet', size: 'a4' } as const;
  const drawn = paperPages(task);
  const printed = await readPages(await makePaper(task));
  expect(printed.length).toBe(drawn.length);
  for (const [index, { items }] of drawn.entries())
    for (const { what, leftMm, rightMm } of placed(items).filter(({ isSolid }) => isSolid)) {
      const [first = '', last = ''] = [what.split(' ')[0], what.split(' ').at(-1)];
      const words = printed[index]?.words ?? [];
      expect(words.some((word) => word.text.startsWith(first) && Math.abs(word.leftMm - leftMm) < 0.3)).toBe(true);
      expect(words.some((word) => word.text.endsWith(last) && Math.abs(word.rightMm - rightMm) < 0.3)).toBe(true);
    }
});
