import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lengthText } from '../../server/core/lengthText.ts';
import { sayLength } from '../../server/planFigures.ts';
import { holds } from '../kit/holds.ts';

const IN = 25.4;

describe('a length', () => {
  test('that is small is not rounded away in inches', () => {
    expect(sayLength(0.27, 'in')).toBe('0.011 in');
    expect(lengthText(0.27, 'in')).toBe('0.011 in');
    // A plain fraction stays one, and so does what is no small length.
    expect(sayLength(IN / 32, 'in')).toBe('1/32 in');
    expect(sayLength(3, 'in')).toBe('1/8 in');
    expect(sayLength(0, 'in')).toBe('0 in');
    expect(sayLength(0.27, 'mm')).toBe('0.3 mm');
  });

  test('that is needed is never told as less, one that is allowed never as more', () => {
    expect(sayLength(0.386 * IN, 'in', 'at least')).toBe('13/32 in');
    expect(lengthText(0.386 * IN, 'in', 'at least')).toBe('0.39 in');
    expect(lengthText(27.41, 'mm', 'at least')).toBe('27.5 mm');
    expect(lengthText(27.49, 'mm', 'at most')).toBe('27.4 mm');
    const sizeOf = (text: string): number =>
      text
        .replace(/ (in|mm)$/, '')
        .split(' ')
        .map((part) => part.split('/').map(Number))
        .reduce((sum, [over = 0, under = 1]) => sum + over / under, 0);
    holds(
      fc.property(
        fc.double({ min: 0.1, max: 5000, noNaN: true }),
        fc.constantFrom('mm' as const, 'in' as const),
        fc.constantFrom(sayLength, lengthText),
        (mm, units, say) => {
          const size = units === 'mm' ? mm : mm / IN;
          expect(sizeOf(say(mm, units, 'at least'))).toBeGreaterThanOrEqual(size - 1e-6);
          expect(sizeOf(say(mm, units, 'at most'))).toBeLessThanOrEqual(size + 1e-6);
        },
      ),
    );
  });

  test('that is a radius has no more figures than anyone could use', () => {
    expect(sayLength(908.2, 'mm', 'about')).toBe('908 mm');
    expect(lengthText(908.2, 'mm', 'about')).toBe('908 mm');
    expect(sayLength(69_904.7, 'mm', 'about')).toBe('69900 mm');
    expect(sayLength(69_904.7, 'in', 'about')).toBe('2750 in');
    expect(sayLength(908.2, 'in', 'about')).toBe('35.8 in');
    expect(sayLength(889, 'in', 'about')).toBe('35.0 in');
    expect(sayLength(190.2, 'mm', 'about, at least')).toBe('191 mm');
    expect(lengthText(10_010, 'mm', 'about, at least')).toBe('10100 mm');
  });
});
