import { expect, test } from 'vitest';
import { uncertainBevelWarnings } from '../../../server/core/frame/uncertainBevels.ts';

const mark = (number: number, sawnDeg: number, errorDeg?: number) => ({
  mark: number,
  sawnDeg,
  ...(errorDeg === undefined ? {} : { errorDeg }),
});

test('nothing below a degree, and nothing where no error is known', () => {
  expect(uncertainBevelWarnings([mark(1, 3, 0.99), mark(2, 4)])).toEqual([]);
});

test('one warning names every mark from a degree on, the worst of them, and those whose hand is not certain', () => {
  const [warning, ...others] = uncertainBevelWarnings([
    mark(1, -5.2, 3.4),
    mark(2, 1.4, 1),
    mark(3, 9, 0.4),
    mark(4, 12, 1.2),
  ]);
  expect(others).toEqual([]);
  expect(warning?.code).toBe('uncertain-bevel');
  expect(warning?.message).toContain('not tell the bevel well at marks 1 to 2 and 4: it may be 3.4° wrong at mark 1,');
  expect(warning?.message).toContain('standing or under is not certain at marks 1 to 2.');
  expect(warning?.message).toContain('Measure the bevel there on the boat or on the loft floor before it is sawn.');
  expect(uncertainBevelWarnings([mark(4, 12, 1.2)])[0]?.message).not.toContain('standing or under');
});
