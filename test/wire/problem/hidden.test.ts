import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { parseJob } from '../../../server/wire/job/parseJob.ts';
import { parseKeepRequest } from '../../../server/wire/kept/crew.ts';
import { asOneLine, hiddenInTable, isOneLine, withEscapes } from '../../../server/wire/problem/hidden.ts';
import { goodFiles, goodJob } from '../goodJobs.ts';

/** By their names in the Unicode Character Database (UnicodeData.txt, DerivedCoreProperties.txt; read). */
const HIDDEN: readonly (readonly [string, string])[] = [
  ['right-to-left override', '\u202E'],
  ['right-to-left embedding', '\u202B'],
  ['pop directional formatting', '\u202C'],
  ['left-to-right mark', '\u200E'],
  ['Arabic letter mark', '\u061C'],
  ['right-to-left isolate', '\u2067'],
  ['pop directional isolate', '\u2069'],
  ['zero width space', '\u200B'],
  ['zero width joiner', '\u200D'],
  ['word joiner', '\u2060'],
  ['zero width no-break space', '\uFEFF'],
  ['soft hyphen', '\u00AD'],
  ['combining grapheme joiner', '\u034F'],
  ['Hangul filler', '\u3164'],
  ['a tag', '\u{E0041}'],
  ['line separator', '\u2028'],
  ['next line', '\u0085'],
  ['control sequence introducer', '\u009B'],
  ['null', '\0'],
  ['half a pair', '\uD800'],
  ['private use', '\uE000'],
];
const SEEN = [
  'Łódź',
  '船の肋骨',
  'Каркас',
  'e\u0301cume',
  'A boat ⛵\uFE0F',
  'non-breaking\u00A0space',
  '½"',
  'سفينة',
  'שלד',
];

describe.each(HIDDEN)('%s', (_, char) => {
  it('is refused in every text that a person writes, and shown as an escape', () => {
    for (const [field, spoil] of [
      ['title', { title: `a${char}b` }],
      ['frame.label', { frame: { ...goodJob().frame, label: `a${char}b` } }],
      ['stack.species', { stack: { species: `a${char}b` } }],
      ['shape.pickup', { shape: { pickup: `a${char}b` } }],
    ] as const) {
      const made = parseJob({ ...goodJob(), ...spoil }, goodFiles());
      const problem = made.ok ? undefined : made.problems.find(({ at }) => at.field === field);
      expect(problem?.code, field).toBe('out-of-range');
      expect(problem?.wanted).toContain('without invisible or direction-changing characters');
      expect(problem?.found).not.toContain(char);
      expect(problem?.found).toContain('\\u');
    }
    // Any white space in a name becomes one plain space.
    const kept = parseKeepRequest({ name: `a${char}b`, run: 'r' });
    expect(kept.ok ? kept.value.name : undefined).toBe(/\s/.test(char) ? 'a b' : undefined);
  });

  it('is refused in a table, with its line', () => {
    const files = { ...goodFiles(), 'pickup.csv': `girth,bevel,note\n0,4,\n400,7,a${char}b\n` };
    const made = parseJob({ ...goodJob(), marks: { spacing: 100 } }, files);
    expect(made.ok ? [] : made.problems).toMatchObject([{ code: 'not-csv', at: { file: 'pickup.csv', line: 3 } }]);
  });
});

test.each(SEEN)('%s is a title', (title) => {
  expect(parseJob({ ...goodJob(), title }, goodFiles())).toMatchObject({ ok: true, value: { title } });
});

test('a cell of a table may go over lines, and a table may begin with a byte order mark', () => {
  expect(hiddenInTable('\uFEFFa,b\r\n"two\nlines",\t2\n')).toBeUndefined();
  expect(hiddenInTable('a\r\nb\rc\u200Bd\n')).toEqual({ line: 3, text: 'c\u200Bd' });
});

test('whatever is reported comes out on one line, and whatever is shown has nothing hidden left', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', minLength: 1 }), (text) => {
      expect(isOneLine(asOneLine(text), 1000)).toBe(true);
      expect(isOneLine(withEscapes(text), 10_000)).toBe(true);
      if (isOneLine(text, 1000)) expect([asOneLine(text), withEscapes(text)]).toEqual([text, text]);
    }),
  );
});
