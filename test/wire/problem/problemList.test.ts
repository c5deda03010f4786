import { expect, test } from 'vitest';
import { PROBLEMS_SHOWN, ProblemList } from '../../../server/wire/problem/problemList.ts';

function listOf(count: number): ProblemList {
  const list = new ProblemList();
  for (let row = 1; row <= count; row++) list.add('missing', { file: 'a.csv', row }, 'nothing', 'a figure');
  return list;
}
const told = (count: number) => {
  const result = listOf(count).result('read');
  return result.ok ? [] : result.problems;
};

test('without problems there is the value', () => {
  expect(listOf(0).result('read')).toEqual({ ok: true, value: 'read' });
});

test('as many as a person reads are told, one by one', () => {
  expect(told(PROBLEMS_SHOWN)).toHaveLength(PROBLEMS_SHOWN);
  expect(told(PROBLEMS_SHOWN).at(-1)).toMatchObject({ code: 'missing', at: { row: PROBLEMS_SHOWN } });
});

test.each([
  [1, '1 more problem from here on'],
  [2, '2 more problems from here on'],
  [30, '30 more problems from here on'],
])('%i more are only counted, from where they begin', (more, found) => {
  expect(told(PROBLEMS_SHOWN + more)).toHaveLength(PROBLEMS_SHOWN + 1);
  expect(told(PROBLEMS_SHOWN + more).at(-1)).toMatchObject({
    code: 'too-many',
    found,
    at: { row: PROBLEMS_SHOWN + 1 },
  });
});

test('all of them count, those not shown too; full is who need not word any more', () => {
  expect([0, 3, PROBLEMS_SHOWN, PROBLEMS_SHOWN + 1, PROBLEMS_SHOWN + 30].map((n) => listOf(n).count)).toEqual([
    0,
    3,
    PROBLEMS_SHOWN,
    PROBLEMS_SHOWN + 1,
    PROBLEMS_SHOWN + 30,
  ]);
  expect([PROBLEMS_SHOWN - 1, PROBLEMS_SHOWN].map((n) => listOf(n).isFull)).toEqual([false, true]);
});
