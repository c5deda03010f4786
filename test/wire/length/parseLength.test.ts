import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLength, readLengthCell } from '../../../server/wire/length/parseLength.ts';

const mmOf = (given: unknown, units: 'mm' | 'in' = 'mm'): number => {
  const result = parseLength(given, units);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};
const codeOf = (given: unknown, units: 'mm' | 'in' = 'mm'): string | undefined => {
  const result = parseLength(given, units);
  return result.ok ? undefined : result.problems[0]?.code;
};

describe('a length', () => {
  it.each([
    ['60 mm', 60],
    ['60mm', 60],
    ['  6.5 CM ', 65],
    ['1.2 m', 1200],
    ['.5 in', 12.7],
    ['2 3/8 in', 60.325],
    ['2-3/8 in', 60.325],
    ['3/8"', 9.525],
    ['2⅜″', 60.325],
    ['1 ft', 304.8],
    ['1 ft 2 3/8 in', 365.125],
    [`5' 7"`, 1701.8],
    ['-3 mm', -3],
    ['−3 mm', -3],
    ['1e3 mm', 1000],
    ['2-3-4+', 700.0875],
    ['-0-0-1', -3.175],
    ['-0 mm', 0],
  ])('%s is %d mm', (text, mm) => {
    expect(mmOf(text)).toBe(mm);
    expect(mmOf(text, 'in')).toBe(mm);
  });

  it('without a unit counts in the units of the job, as a number only', () => {
    expect(mmOf(60)).toBe(60);
    expect(mmOf(2.375, 'in')).toBe(60.325);
    expect(codeOf('60')).toBe('not-a-length');
    // JSON has no fractions: one in quotation marks is as bare as a number, and in mm nobody knows what it counts in.
    expect(mmOf('2 3/8', 'in')).toBe(60.325);
    expect(parseLength('2 3/8', 'mm')).toMatchObject({
      problems: [{ code: 'ambiguous-length', wanted: expect.stringContaining('mm or in?') }],
    });
  });

  it('in a table may be bare; a bare fraction only where inches are meant', () => {
    expect(readLengthCell('120.5', 'mm')).toEqual({ mm: 120.5 });
    expect(readLengthCell('2 3/8', 'in')).toEqual({ mm: 60.325 });
    expect(readLengthCell('2 3/8', 'mm')).toMatchObject({ code: 'ambiguous-length' });
    expect(readLengthCell('1,5', 'mm')).toMatchObject({
      code: 'not-a-length',
      wanted: expect.stringContaining('decimal point'),
    });
  });

  it.each([
    ['2-3-4-', 'ambiguous-length'],
    ['2-3-4--', 'ambiguous-length'],
    ['2-3-4-+', 'ambiguous-length'],
    ['2-3-4+++', 'ambiguous-length'],
    ['2-12-0', 'out-of-range'],
    ['2-3-8', 'out-of-range'],
    ['1/0 in', 'not-a-length'],
    ['2 9/8 in', 'not-a-length'],
    ['12,5 mm', 'not-a-length'],
    ['12 furlongs', 'not-a-length'],
    ['mm', 'not-a-length'],
    ['', 'not-a-length'],
    ['NaN', 'not-a-length'],
    ['1e9 m', 'out-of-range'],
    [Number.NaN, 'not-a-length'],
    [Number.POSITIVE_INFINITY, 'out-of-range'],
    [null, 'wrong-type'],
    [true, 'wrong-type'],
    [['60 mm'], 'wrong-type'],
    ['9'.repeat(100_000), 'not-a-length'],
  ])('%j is refused (%s)', (given, code) => {
    expect(codeOf(given)).toBe(code);
  });

  it('names the place that it is given', () => {
    const result = parseLength('wide', 'mm', { field: 'frame.siding' });
    expect(result).toMatchObject({ problems: [{ at: { field: 'frame.siding' }, found: '"wide"' }] });
  });

  it('is the same in every spelling (property)', () => {
    const written = fc.record({ feet: fc.nat({ max: 50 }), inches: fc.nat({ max: 11 }), eighths: fc.nat({ max: 7 }) });
    fc.assert(
      fc.property(written, ({ feet, inches, eighths }) => {
        const mm = mmOf(`${feet}-${inches}-${eighths}`);
        expect(mmOf(`${feet} ft ${inches} ${eighths}/8 in`)).toBeCloseTo(mm, 8);
        expect(mmOf(feet * 12 + inches + eighths / 8, 'in')).toBe(mm);
        expect(mmOf(`${feet}-${inches}-${eighths}+`)).toBeCloseTo(mm + 25.4 / 16, 8);
      }),
    );
  });

  it('or a refusal with words: never a throw, never no number (1,000 texts)', () => {
    const scrap = fc
      .array(
        fc.constantFrom('1', '0', '9', '-', '+', '/', '.', ',', ' ', 'e', 'mm', 'in', "'", '"', 'ft', '½', '\ud800'),
        { maxLength: 12 },
      )
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(
        fc.oneof(scrap, fc.string({ unit: 'binary' }), fc.anything({ maxDepth: 1 })),
        fc.constantFrom('mm', 'in'),
        (given, units) => {
          const result = parseLength(given, units);
          if (result.ok) expect(Number.isFinite(result.value)).toBe(true);
          else expect(result.problems[0]?.found && result.problems[0].wanted).toBeTruthy();
        },
      ),
      { numRuns: 1000 },
    );
  });
});
