import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeMarks } from '../../../server/core/frame/placeMarks.ts';
import { holds } from '../../kit/holds.ts';

const spaced = (toMm: number, spacingMm: number, fromMm = 0) =>
  placeMarks({ kind: 'spacing', spacingMm }, { fromMm, toMm, notation: 'mm' });
const at = (...girthsMm: number[]) => placeMarks({ kind: 'at', girthsMm }, { fromMm: 100, toMm: 900, notation: 'mm' });

describe('marks at a spacing', () => {
  test('from the first girth to the last', () => {
    expect(spaced(600, 150)).toStrictEqual({ ok: true, value: [0, 150, 300, 450, 600] });
    expect(spaced(700, 200, 100)).toStrictEqual({ ok: true, value: [100, 300, 500, 700] });
  });

  test('half a spacing or more left over at the head is an interval, less is joined to the one before', () => {
    expect(spaced(680, 150)).toStrictEqual({ ok: true, value: [0, 150, 300, 450, 600, 680] });
    expect(spaced(660, 150)).toStrictEqual({ ok: true, value: [0, 150, 300, 450, 660] });
    expect(spaced(90, 150)).toStrictEqual({ ok: true, value: [0, 90] });
  });

  test('no interval is shorter than half the spacing or longer than one and a half, where the frame is that long', () => {
    holds(
      fc.property(fc.integer({ min: 100, max: 5000 }), fc.integer({ min: 10, max: 100 }), (length, spacing) => {
        const placed = spaced(length, spacing);
        if (!placed.ok) throw new Error('refused');
        const intervals = placed.value.slice(1).map((girth, i) => girth - (placed.value[i] ?? 0));
        expect(Math.min(...intervals)).toBeGreaterThanOrEqual(spacing / 2);
        expect(Math.max(...intervals)).toBeLessThanOrEqual(spacing * 1.5);
        expect(placed.value.at(-1)).toBe(length);
      }),
    );
  });

  test('more than 2000 are refused, with the spacing that would do', () => {
    expect(spaced(1999, 1).ok).toBe(true);
    const placed = spaced(5000, 1);
    expect(placed).toMatchObject({ ok: false, problems: [{ code: 'too-many', at: { field: 'marks.spacing' } }] });
  });
});

describe('marks at given places', () => {
  test('are taken as they are', () => {
    expect(at(100, 250, 900)).toStrictEqual({ ok: true, value: [100, 250, 900] });
  });

  test('each one outside of the girth that was picked up is named, in the units of the job', () => {
    expect(at(50, 250, 950)).toMatchObject({
      ok: false,
      problems: [
        {
          code: 'out-of-range',
          at: { field: 'marks.at[0]' },
          found: '50 mm',
          wanted: expect.stringContaining('900 mm'),
        },
        { code: 'out-of-range', at: { field: 'marks.at[2]' }, found: '950 mm' },
      ],
    });
    const inches = placeMarks(
      { kind: 'at', girthsMm: [0, 508] },
      { fromMm: 0, toMm: 254, notation: 'inches and fractions' },
    );
    expect(inches).toMatchObject({ problems: [{ found: '20 in', wanted: expect.stringContaining('10 in') }] });
  });

  test('two that are one place of the frame are refused', () => {
    expect(at(100, 400, 400.2, 900)).toMatchObject({
      problems: [{ code: 'out-of-order', at: { field: 'marks.at[2]' } }],
    });
  });

  test('the rounding of units is forgiven', () => {
    expect(at(99.9999, 900.00001)).toStrictEqual({ ok: true, value: [100, 900] });
  });
});
