/** Names that differ look different on paper, in whatever signs they are written. */
import { expect, test } from 'vitest';
import { lackingSigns, writable } from '../../server/paper/draw/typeface.ts';
import { makePaper } from '../../server/paper/makePaper.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { readPages } from './printed.ts';

test('a sign that the typeface lacks is written as its number, and told', () => {
  expect(writable('frame \u03A9 and \u8239')).toBe('frame U+03A9 and U+8239');
  expect(writable('\u21169')).toBe('No.9');
  expect(lackingSigns('\u03A9 a \u03A9 \u8239 é')).toEqual(['\u03A9', '\u8239']);
});

test('what the font files name in their ranges but do not draw is lacking too', () => {
  // U+01C2 and U+2030 stand in the ranges of the package; neither weight has a drawing of them.
  expect(writable('\u01C25 \u2030')).toBe('U+01C25 U+2030');
  expect(writable('Łódź, Größe, 12½ “A” − 3°')).toBe('Łódź, Größe, 12½ “A” − 3°');
});

test('names that differ in one such sign, or in a mark over a letter, do not look the same', () => {
  const names = ['9 \u03A9', '9 \u03A8', '9 \u8239', '9 x\u0304', '9 x', '9 x\u0308', '9 ?'];
  expect(new Set(names.map(writable)).size).toBe(names.length);
});

test.each(['board', 'strip'] as const)('%s says which signs of the title are written by number', async (paper) => {
  const plan = { ...(await demoPlan()), title: 'Frame \u03A9' };
  const pages = await readPages(await makePaper({ plan, paper, size: 'a4' }));
  expect(pages[0]?.text).toContain('Frame U+03A9');
  expect(pages.at(-1)?.text).toMatch(/lacks .*number: U\+03A9/);
});
