import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBevel } from '../../../server/wire/length/readBevel.ts';
import { parsePickUp } from '../../../server/wire/table/parsePickUp.ts';
import { holds } from '../../kit/holds.ts';

const degOf = (text: string, units: 'mm' | 'in' = 'mm'): number | undefined => readBevel(text, units).deg;
/** From the tangent and nothing else. */
const slope = (rise: number, run: number): number => (Math.atan(rise / run) * 180) / Math.PI;

describe('a bevel', () => {
  it.each([
    ['4', 4],
    ['-3.5', -3.5],
    ['4°', 4],
    ['4 °', 4],
    ['4º', 4],
    ['−4°', -4],
    ['4 deg', 4],
    ['10 1/2', 10.5],
    ['10½°', 10.5],
    ['-1/2', -0.5],
    ['-½', -0.5],
    ['3/16°', 3 / 16],
    ["4° 30'", 4.5],
    ['-4°15′', -4.25],
    ['3/16 in 2 in', slope(3 / 16, 2)],
    ['3/16 in in 2 in', slope(3 / 16, 2)],
    ['3/16" in 2"', slope(3 / 16, 2)],
    ['-1 1/2 in 6 in', -slope(1.5, 6)],
    ['5 mm in 60 mm', slope(5, 60)],
    ['5 mm over 6 cm', slope(5, 60)],
    ['3/16 in over 60 mm', slope((3 / 16) * 25.4, 60)],
  ])('%s is %d degrees, in either measure', (text, deg) => {
    expect(degOf(text, 'mm')).toBeCloseTo(deg, 9);
    expect(degOf(text, 'in')).toBeCloseTo(deg, 9);
  });

  it.each([
    // 5 mm, or 5 inches?
    ['5 in 60 mm', 'the unit of the rise'],
    ['1 in 12', 'mm or in?'],
    // A part of a degree, or a rise over the siding?
    ['3/16', 'or a rise over a length'],
    ['-5/60', 'write "-5/60°"'],
    // Whoever writes what is proposed keeps an under bevel under.
    ['-1/4 in 2 3/8', 'such as "-1/4 in 2 3/8 in" or "-1/4 mm in 2 3/8 mm"'],
    ['-5 in 60 mm', '"-5 mm in 60 mm"'],
    ['94', 'Subtract 90? If the gauge reads 90 where the faces are square and more where standing, this is 4'],
    ['86.5', 'this is -3.5'],
    ['10-1/2', 'degrees off square'],
    ['10 3/2', 'degrees off square'],
    ["4.5° 30'", 'degrees off square'],
    ["4° 60'", 'degrees off square'],
    ['2,5', 'with a decimal point'],
    ['5 in 0 in', 'a rise and a length'],
    ['4 in 1 in', 'less than 60'],
    ['170', 'degrees off square'],
  ])('%s is asked or refused: %s', (text, wanted) => {
    const reading = readBevel(text, 'mm');
    expect(reading.deg).toBeUndefined();
    expect('wanted' in reading && reading.wanted).toContain(wanted);
  });

  it('off a gauge that reads 90 where square', () => {
    expect(readBevel('94', 'mm', 'about 90')).toEqual({ deg: 4 });
    expect(readBevel('86 1/2', 'mm', 'about 90')).toEqual({ deg: -3.5 });
    expect(readBevel('4', 'mm', 'about 90')).toMatchObject({ wanted: expect.stringContaining('add 90') });
    // A slope is off square whatever the gauge reads.
    expect(readBevel('3/16 in 2 in', 'mm', 'about 90')).toEqual(readBevel('3/16 in 2 in', 'mm'));
  });

  it('is one number or a refusal with words, whatever is written (property)', () => {
    const part = fc.constantFrom('1', '9', '0', '/', ' ', '-', '.', '°', "'", '"', 'in', 'mm', 'over', '½', ',');
    holds(
      fc.property(fc.array(part, { maxLength: 9 }), fc.constantFrom('mm' as const, 'in' as const), (parts, units) => {
        const reading = readBevel(parts.join(''), units);
        if (reading.deg === undefined) expect(reading.wanted.length).toBeGreaterThan(10);
        else expect(Math.abs(reading.deg)).toBeLessThan(60);
      }),
    );
  });

  it('that cannot be read names file, row and column', () => {
    expect(parsePickUp('p.csv', 'girth,bevel\n0,4°\n150,94\n')).toMatchObject({
      problems: [
        {
          at: { file: 'p.csv', row: 2, column: 'bevel' },
          found: '"94"',
          wanted: expect.stringContaining('Subtract 90?'),
        },
      ],
    });
  });
});
