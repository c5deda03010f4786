import { expect, test } from 'vitest';
import { parsePiece } from '../../../server/wire/table/parsePiece.ts';

test('a measured piece: places from any zero, bevels, weight and the thinner edge', () => {
  expect(parsePiece('p.csv', 'along,bevel,weight,thin\n-20,4.5,,\n"1 ft",5,2,3.1\n', 'mm')).toEqual({
    ok: true,
    value: [
      { alongMm: -20, bevelDeg: 4.5, weight: 1 },
      { alongMm: 304.8, bevelDeg: 5, weight: 2, thinMm: 3.1 },
    ],
  });
  expect(parsePiece('p.csv', '# measured today\nalong,bevel\n1,2\n2,3\n', 'in')).toMatchObject({
    value: [{ alongMm: 25.4 }, { alongMm: 50.8 }],
  });
});

test('what is wrong with it is told with its row and column', () => {
  const found = parsePiece('p.csv', 'along,bevel,weight,thin\n10,4\n5,99,0,-1\n', 'mm');
  expect(found.ok).toBe(false);
  expect(found.ok ? [] : found.problems.map(({ at, code }) => [at.row, at.column, code])).toEqual([
    [2, 'along', 'out-of-order'],
    [2, 'bevel', 'out-of-range'],
    [2, 'weight', 'out-of-range'],
    [2, 'thin', 'out-of-range'],
  ]);
  expect(parsePiece('p.csv', 'along,bevel\n10,4\n', 'mm')).toMatchObject({
    ok: false,
    problems: [{ code: 'too-few' }],
  });
  expect(parsePiece('p.csv', 'girth,bevel\n10,4\n', 'mm')).toMatchObject({ ok: false });
});
