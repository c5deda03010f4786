/** Type on paper against the size that people need. */
import { expect, test } from 'vitest';
import type { Item } from '../../server/paper/draw/page.ts';
import { paperPages } from '../../server/paper/makePaper.ts';
import { demoPlan } from '../kit/demoPlan.ts';

/** Height of a character that fills so many minutes of arc: H = 2 D tan(a / 2). */
const heightMm = (distanceMm: number, minutes: number): number =>
  2 * distanceMm * Math.tan((minutes * Math.PI) / 180 / 60 / 2);
/** NUREG-0700 (read): at least 16 minutes of arc at the farthest reader. */
const MINUTES = 16;
/** Of the em of Barlow a capital or figure takes 0.7 (read from the font's own table, capHeight 700 of 1000 units). */
const CAPITAL = 0.7;

const texts = (items: readonly Item[]): readonly Extract<Item, { kind: 'text' }>[] =>
  items.flatMap((item) => (item.kind === 'window' ? texts(item.items) : item.kind === 'text' ? [item] : []));

test('the figures of the schedule can be read at arm’s length and more, those of the strip from the wheel', async () => {
  const plan = await demoPlan();
  const shown = (paper: 'sheet' | 'strip') =>
    paperPages({ plan, paper, size: 'a4' } as Parameters<typeof paperPages>[0])
      .slice(...(paper === 'sheet' ? [1, 2] : [0, 3]))
      .flatMap(({ items }) => texts(items));
  const smallest = (items: ReturnType<typeof texts>): number =>
    Math.min(...items.filter(({ text }) => /^\d+\.\d°$/.test(text)).map(({ sizeMm }) => sizeMm * CAPITAL));
  const sheet = shown('sheet');
  const rowsFrom = sheet.findIndex(({ text }) => text === 'At blade');
  expect(rowsFrom).toBeGreaterThan(0);
  // The paper hangs beside the caller: 0.9 m. The strip is read over the stock: 1.5 m.
  expect(smallest(sheet.slice(rowsFrom))).toBeGreaterThan(heightMm(900, MINUTES));
  expect(smallest(shown('strip'))).toBeGreaterThan(heightMm(1500, MINUTES));
  // What is looked up before the cut is held in the hand.
  expect(smallest(sheet.slice(0, rowsFrom))).toBeGreaterThan(heightMm(600, MINUTES));
});
