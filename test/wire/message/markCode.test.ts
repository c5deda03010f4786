import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { markCodeText, parseMarkCode, type StripOf, stripLetters } from '../../../server/wire/message/markCode.ts';

const STRIP: StripOf = {
  title: 'Frame 14, starboard',
  frame: { label: '14', side: 'starboard', sidingMm: 60, mouldingMm: 80, mouldedFace: 'forward' },
  marks: [
    { mark: 1, stockMm: 0, callDeg: 3.5 },
    { mark: 2, stockMm: 151.2, callDeg: 8 },
  ],
};

describe('the code of a mark', () => {
  test('is short, in characters that every scanner types, and reads back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), fc.string(), (mark, title) => {
        const strip = { ...STRIP, title };
        const text = markCodeText(strip, mark);
        expect(text).toMatch(/^BTM[A-Z0-9]{5,8}$/);
        expect(parseMarkCode(text)).toEqual({ ok: true, strip: stripLetters(strip), mark });
        expect(parseMarkCode(` ${text.toLowerCase()}\r\n`)).toEqual({ ok: true, strip: stripLetters(strip), mark });
      }),
    );
  });

  test('tells a strip of another frame, and of other marks on the same', () => {
    const letters = stripLetters(STRIP);
    expect(stripLetters({ ...STRIP, frame: { ...STRIP.frame, label: '15' } })).not.toBe(letters);
    expect(stripLetters({ ...STRIP, frame: { ...STRIP.frame, side: 'port' } })).not.toBe(letters);
    expect(stripLetters({ ...STRIP, marks: STRIP.marks.slice(0, 1) })).not.toBe(letters);
    expect(stripLetters(structuredClone(STRIP))).toBe(letters);
  });

  test('is never seen in goods’ codes', () => {
    for (const other of ['4006381333931', '036000291452', '7', 'MARK7', 'https://example.com/BTM', '', 'A-123-B'])
      expect(parseMarkCode(other)).toEqual({ ok: false, reason: 'not-a-mark' });
    fc.assert(
      fc.property(fc.string(), (text) => {
        fc.pre(!text.replace(/[\s-]/g, '').toUpperCase().startsWith('BTM'));
        expect(parseMarkCode(text)).toEqual({ ok: false, reason: 'not-a-mark' });
      }),
    );
  });

  test('is told to be misread where a character is lost, and mostly where one is changed', () => {
    const text = markCodeText(STRIP, 17);
    for (let at = 3; at < 6; at += 1) expect(parseMarkCode(text.slice(0, at) + text.slice(at + 1)).ok).toBe(false);
    let missed = 0;
    let tried = 0;
    for (let mark = 1; mark <= 200; mark += 1) {
      const code = markCodeText(STRIP, mark);
      for (const digit of '123456789') {
        const changed = `${code.slice(0, 6)}${digit}${code.slice(7)}`;
        if (changed === code) continue;
        tried += 1;
        if (parseMarkCode(changed).ok) missed += 1;
      }
    }
    expect(missed / tried).toBeLessThan(0.12);
  });
});
