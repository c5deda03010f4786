/** What is drawn later covers no figure, and what is drawn true can be checked on its own sheet. */
import { expect, test } from 'vitest';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { Item, Page, Point, TextItem } from '../../server/paper/draw/page.ts';
import { type Reach, reachOf } from '../../server/paper/draw/reach.ts';
import { openSheets } from '../../server/paper/draw/sheets.ts';
import { paperPages } from '../../server/paper/makePaper.ts';
import { clearOf, drawCurveSheet } from '../../server/paper/sheets/curve.ts';
import { drawSections } from '../../server/paper/sheets/wood/sections.ts';
import { demoPlan } from '../kit/demoPlan.ts';

const demo = await demoPlan();
const drawn = (plan: Plan, draw: (sheets: ReturnType<typeof openSheets>, plan: Plan) => void): readonly Page[] => {
  const sheets = openSheets('a4', 'Test', plan);
  draw(sheets, plan);
  return sheets.pages().slice(1);
};
const isOn = (a: Reach, b: Reach): boolean =>
  a.leftMm < b.rightMm - 0.05 &&
  b.leftMm < a.rightMm - 0.05 &&
  a.topMm < b.bottomMm - 0.05 &&
  b.topMm < a.bottomMm - 0.05;
const texts = ({ items }: Page): readonly TextItem[] => items.flatMap((item) => (item.kind === 'text' ? [item] : []));

/** Marks so close that a figure is wider than its bar. */
const close: Plan = {
  ...demo,
  girthMm: 1800,
  marks: Array.from({ length: 40 }, (_, i) => ({
    ...(demo.marks[0] as Plan['marks'][number]),
    mark: i + 1,
    girthMm: i * 46,
  })),
  pace: {
    ...demo.pace,
    intervals: Array.from({ length: 39 }, (_, i) => ({
      ...(demo.pace.intervals[0] as Plan['pace']['intervals'][number]),
      fromMark: i + 1,
      toMark: i + 2,
    })),
  },
};

test.each([
  ['the demo', demo],
  ['close marks', close],
])('no bar covers a figure of the feed: %s', (_which, plan) => {
  const [page] = drawn(plan, drawCurveSheet);
  const items = page?.items ?? [];
  const isFilled = (item: Item): boolean =>
    item.kind === 'path' && item.fill !== undefined && item.lines[0]?.length === 4;
  items.forEach((item, at) => {
    if (item.kind !== 'text') return;
    const covering = items.slice(at + 1).filter((later) => isFilled(later) && isOn(reachOf(later), reachOf(item)));
    expect([item.text, covering.length]).toEqual([item.text, 0]);
  });
  expect(texts(page as Page).some(({ text }) => text === `${demo.crew.feedMPerMin}`)).toBe(true);
});

test('the name of the reach stands clear of the curve', () => {
  const plan: Plan = {
    ...demo,
    saw: { ...demo.saw, tiltDeg: [-5, 6] },
    hand: 1,
    curve: Array.from({ length: 61 }, (_, i) => ({ girthMm: i * 30, bevelDeg: i / 6 })),
  };
  const [page] = drawn(plan, drawCurveSheet);
  const name = page?.items.find((item) => item.kind === 'text' && item.text === "the saw's reach");
  if (page === undefined || name === undefined) throw new Error('no name');
  const curve = page.items.find((item) => item.kind === 'path' && item.lines[0]?.length === 61);
  const line = curve?.kind === 'path' ? (curve.lines[0] ?? []) : [];
  expect(line).toHaveLength(61);
  const { leftMm, topMm, rightMm, bottomMm } = reachOf(name);
  expect(clearOf(line, [leftMm, topMm], [rightMm, bottomMm])).toBe(true);
  const thin = page.items.filter(
    (item, at) => item.kind === 'path' && at > page.items.indexOf(name) && item.lines[0]?.length === 2,
  );
  expect(thin.filter((item) => isOn(reachOf(item), reachOf(name)))).toEqual([]);
});

test('a line that runs through a box is not clear of it, one beside it is', () => {
  const line: readonly Point[] = [
    [0, 0],
    [10, 10],
  ];
  expect(clearOf(line, [4, 4], [6, 6])).toBe(false);
  expect(clearOf(line, [11, 0], [12, 20])).toBe(true);
});

const isBars = (page: Page): boolean =>
  ['100 mm', '4 in', 'Print at 100 %'].every((words) => texts(page).some(({ text }) => text === words));

test('each sheet of a bevel board has bars of its own, and so has each with sections', () => {
  const marks = Array.from({ length: 5 }, () => demo.marks)
    .flat()
    .map((mark, index) => ({ ...mark, mark: index + 1 }));
  const board = paperPages({ plan: { ...demo, marks }, paper: 'board', size: 'letter' });
  expect(board.length).toBeGreaterThan(2);
  expect(board.map(isBars)).toEqual(board.map(() => true));
  const sections = drawn(demo, drawSections);
  expect(sections.map(isBars)).toEqual(sections.map(() => true));
  const deep: Plan = { ...demo, stack: { ...demo.stack, plies: 40 } };
  const onMore = drawn(deep, drawSections);
  expect(onMore.length).toBeGreaterThan(1);
  expect(onMore.map(isBars)).toEqual(onMore.map(() => true));
});
