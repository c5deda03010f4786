/** Strips at the ends of what can be asked: marks close together, and longer than a page can be. */
import { describe, expect, test } from 'vitest';
import { makePlan } from '../../server/core/makePlan.ts';
import { reachOf } from '../../server/paper/draw/reach.ts';
import { layStrip } from '../../server/paper/strip/stripPages.ts';
import { markCodeText, stripLetters } from '../../server/wire/message/markCode.ts';
import { aJob } from '../kit/aJob.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { decode } from './decode.ts';
import { DOTS_PER_MM, joinedStrip } from './joined.ts';
import { smeared, turned } from './picture.ts';
import { readPages } from './printed.ts';
import { codeAt, lineAt, placesOf, RIGHT_WITHIN_MM, SMEAR_MM } from './stripSuite.ts';

/** Marks so near to each other that codes stand in lanes and joins cut through them. */
const close = (() => {
  const made = makePlan(aJob({ title: 'Close marks', marks: { kind: 'spacing', spacingMm: 18 } }));
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
})();

describe('marks 18 mm apart, on A4', async () => {
  const joined = await joinedStrip(close, 'a4');
  const places = placesOf(close);

  test('every mark line lies right', () => {
    const off = [...places.values()].map((mm) => lineAt(joined, mm) / DOTS_PER_MM - mm);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(RIGHT_WITHIN_MM);
  });

  test('every code decodes, also where a join goes through it and the wood moves', async () => {
    for (const mark of places.keys()) {
      const code = smeared(codeAt(joined, mark), SMEAR_MM * DOTS_PER_MM);
      expect(await decode(turned(code, 15))).toEqual([markCodeText(close, mark)]);
    }
  });
});

test('a strip longer than a page may be goes on on the next one', async () => {
  const demo = await demoPlan();
  const long = { ...demo, marks: demo.marks.map((mark) => ({ ...mark, stockMm: mark.stockMm * 2.75 })) };
  const joined = await joinedStrip(long, 'roll62');
  expect(joined.strip.pieces.length).toBe(2);
  for (const page of await readPages(joined.pdf)) expect(Math.max(page.widthMm, page.heightMm)).toBeLessThan(5080);
  const off = [...placesOf(long).values()].map((mm) => lineAt(joined, mm) / DOTS_PER_MM - mm);
  expect(Math.max(...off.map(Math.abs))).toBeLessThan(RIGHT_WITHIN_MM);
});

test('each piece that is cut out carries the letters of its strip and its own number, inside the cut', async () => {
  const demo = await demoPlan();
  for (const [plan, size] of [
    [demo, 'a4'],
    [demo, 'letter'],
    [close, 'a4'],
    [{ ...demo, marks: demo.marks.map((mark) => ({ ...mark, stockMm: mark.stockMm * 2.75 })) }, 'roll62'],
    [{ ...demo, marks: demo.marks.map((mark) => ({ ...mark, stockMm: mark.stockMm * 2.75 })) }, 'tape24'],
  ] as const) {
    const strip = layStrip(plan, size);
    expect(strip.pieces.length).toBeGreaterThan(1);
    for (const { piece, page, fromMm, toMm } of strip.pieces) {
      const windows = strip.pages[page]?.items.flatMap((item) =>
        item.kind === 'window' && item.fromMm[0] === fromMm ? [item] : [],
      );
      const names = windows?.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'text' ? [item] : [])));
      const name = names?.filter(({ text }) => text === `${stripLetters(plan)} ${piece}`) ?? [];
      expect(name.length).toBe(1);
      for (const item of name) {
        const { leftMm, rightMm, topMm, bottomMm } = reachOf(item);
        expect(leftMm).toBeGreaterThan(fromMm);
        expect(rightMm).toBeLessThan(toMm);
        expect(topMm).toBeGreaterThan(0);
        expect(bottomMm).toBeLessThanOrEqual(strip.highMm);
      }
    }
  }
});

test.each([
  [18, 1],
  [24, 1],
  [5, 0.6],
])('marks %d mm apart on wide paper have codes of modules of %d mm', (spacingMm, moduleMm) => {
  const made = makePlan(aJob({ marks: { kind: 'spacing', spacingMm } }));
  if (!made.ok) throw new Error('no plan');
  for (const size of ['a4', 'letter'] as const) {
    const { build, flags, pages, highMm } = layStrip(made.value, size);
    expect(build.moduleMm).toBe(moduleMm);
    expect(flags.every(({ lane }) => lane !== null)).toBe(true);
    expect(highMm).toBeLessThan((pages[0]?.heightMm ?? 0) - 16);
  }
});
