/**
 * Lengths against published figures. Offsets notation (feet-inches-eighths and the signs after it): glacierboats.com, page
 * "feet-inches-eighths", status: read. The inch: international yard and pound agreement of 1959, 1 in = 25.4 mm exactly.
 */
import { describe, expect, it } from 'vitest';
import { MM_PER_INCH } from '../../server/core/units.ts';
import { parseLength } from '../../server/wire/length/parseLength.ts';
import { expectClose } from '../kit/close.ts';

const inchesOf = (text: string): number => {
  const result = parseLength(text, 'mm');
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value / MM_PER_INCH;
};

describe('feet-inches-eighths', () => {
  it('reads the published examples (glacierboats.com, read)', () => {
    expectClose(inchesOf('1-3-4'), 15.5, 1e-9, '1-3-4 in inches');
    expectClose(inchesOf('0-0-1+'), 3 / 16, 1e-9, '0-0-1+ in inches');
    expectClose(inchesOf('4-1-3'), 49.375, 1e-9, '4-1-3 in inches');
    expectClose(inchesOf('4-1-1+-'), 49 + 5 / 32, 1e-9, '4-1-1+- in inches');
  });

  it('adds 1/16, 1/32 and 3/32 in for +, +- and ++ (glacierboats.com, read)', () => {
    const bare = inchesOf('2-3-4');
    expectClose(inchesOf('2-3-4+') - bare, 1 / 16, 1e-9, '+');
    expectClose(inchesOf('2-3-4+-') - bare, 1 / 32, 1e-9, '+-');
    expectClose(inchesOf('2-3-4++') - bare, 3 / 32, 1e-9, '++');
  });

  it('gives 1033.4625 mm for 3-4-5+ (derived: 36 + 4 + 5/8 + 1/16 = 40.6875 in, times 25.4)', () => {
    expectClose(inchesOf('3-4-5+'), 40.6875, 1e-9, '3-4-5+ in inches');
    expect(parseLength('3-4-5+', 'mm')).toEqual({ ok: true, value: 1033.4625 });
  });

  it('refuses a minus alone, which is read in more than one way (common practice, no source)', () => {
    expect(parseLength('3-4-5-', 'mm')).toMatchObject({ ok: false, problems: [{ code: 'ambiguous-length' }] });
  });
});

describe('the inch', () => {
  it('is exactly 25.4 mm (international agreement of 1959; status: second-hand)', () => {
    expect(parseLength(1, 'in')).toEqual({ ok: true, value: 25.4 });
    expect(parseLength('1 in', 'mm')).toEqual({ ok: true, value: 25.4 });
    expect(parseLength('1 ft', 'mm')).toEqual({ ok: true, value: 304.8 });
  });
});
