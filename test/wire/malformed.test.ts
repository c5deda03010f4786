import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeProblem, type Problem, type Result } from '../../server/core/errors.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { PROBLEMS_SHOWN } from '../../server/wire/problem/problemList.ts';
import { cases } from '../kit/cases.ts';
import { goodFiles, goodJob } from './goodJobs.ts';

const problemsOf = (job: unknown, files: Readonly<Record<string, string>>): readonly Problem[] => {
  const result = parseJob(job, files);
  return result.ok ? [] : result.problems;
};

/** Holds of every refusal: each problem says where, what and what instead, on one line. */
function expectLocated(result: Result<unknown>): void {
  if (result.ok) return;
  expect(result.problems.length).toBeGreaterThan(0);
  for (const problem of result.problems) {
    const place = problem.at.field ?? problem.at.file ?? '';
    expect(place, JSON.stringify(problem)).not.toBe('');
    expect(problem.found).not.toBe('');
    expect(problem.wanted).not.toBe('');
    const line = describeProblem(problem);
    expect(line).toContain(place);
    expect(line).not.toMatch(/[\p{Cc}\p{Cs}\u2028\u2029]/u);
    expect(line.length).toBeLessThan(1000);
  }
}

describe('nothing throws', () => {
  const junk = fc.oneof(
    fc.constantFrom(
      null,
      true,
      -0,
      1e308,
      -1e308,
      5e-324,
      Number.NaN,
      Number.POSITIVE_INFINITY,
      'NaN',
      '',
      ' ',
      '\ud800',
      '12 mm\u009b',
      '-1 in',
      [],
      {},
      [[[]]],
    ),
    fc.anything({ withNullPrototype: true, withBigInt: true, withDate: true, withMap: true, withSparseArray: true }),
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.double(),
  );
  type Spoiling = (at: Record<string, unknown>, name: string, value: unknown, spare: string) => void;
  const spoilings: readonly Spoiling[] = [
    (at, name) => delete at[name],
    (at, name, value) =>
      Object.defineProperty(at, name, { value, enumerable: true, configurable: true, writable: true }),
    (at, _, value, spare) =>
      Object.defineProperty(at, spare, { value, enumerable: true, configurable: true, writable: true }),
    (at, name, _, spare) => {
      const value = at[name];
      delete at[name];
      Object.defineProperty(at, spare, { value, enumerable: true, configurable: true, writable: true });
    },
  ];
  const step = fc.record({
    section: fc.constantFrom('', 'frame', 'shape', 'marks', 'saw', 'crew', 'stack', 'voice'),
    pick: fc.nat(),
    spoil: fc.constantFrom(...spoilings),
    value: junk,
    spare: fc.oneof(
      fc.constantFrom('__proto__', 'constructor', 'toString', 'Kerf', 'at', 'x\u202e'),
      fc.string({ unit: 'binary' }),
    ),
  });
  const byteText = fc.string({ unit: 'binary', maxLength: 200 });
  const tableSpoiling = fc.record({
    line: fc.nat({ max: 8 }),
    cells: fc.oneof(
      byteText,
      fc
        .array(
          fc.oneof(
            fc.constantFrom('', '0', '1e5', '12,5', '"', '2-3-4-', 'NaN', '-', '#', '1/0', '60', '9e999', ';'),
            fc.string({ maxLength: 6 }),
          ),
          { maxLength: 6 },
        )
        .map((cells) => cells.join(',')),
    ),
  });

  it('on a good job spoilt in one to five places (1,000 jobs, or a quarter)', () => {
    let refused = 0;
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 5 }), (steps) => {
        const job: Record<string, unknown> = goodJob();
        for (const { section, pick, spoil, value, spare } of steps) {
          const at = section === '' ? job : (job[section] as Record<string, unknown> | undefined);
          if (typeof at !== 'object' || at === null || Array.isArray(at) || !Object.isExtensible(at)) continue;
          const names = Object.keys(at);
          spoil(at, names[pick % Math.max(1, names.length)] ?? 'x', value, spare);
        }
        const result = parseJob(job, goodFiles());
        if (!result.ok) refused++;
        expectLocated(result);
      }),
      { numRuns: cases(1000) },
    );
    expect(refused).toBeGreaterThan(cases(1000) / 2);
  });

  it('on tables with spoilt lines, in any order (1,000 tables, or a quarter)', () => {
    fc.assert(
      fc.property(
        fc.array(tableSpoiling, { minLength: 1, maxLength: 4 }),
        fc.boolean(),
        fc.nat(),
        (spoiled, pattern, turn) => {
          const name = pattern ? 'pattern.csv' : 'pickup.csv';
          const lines = goodFiles()[name].split('\n');
          for (const { line, cells } of spoiled) lines[line % lines.length] = cells;
          const cut = turn % lines.length;
          const text = [...lines.slice(cut), ...lines.slice(0, cut)].join(turn % 3 === 0 ? '\r\n' : '\n');
          expectLocated(parseJob(goodJob(), { ...goodFiles(), [name]: text }));
        },
      ),
      { numRuns: cases(1000) },
    );
  });

  it('on anything at all in the place of job and tables (1,000 inputs, or a quarter)', () => {
    fc.assert(
      fc.property(fc.oneof(junk, fc.jsonValue()), byteText, (job, text) => {
        expectLocated(parseJob(job, {}));
        expectLocated(parseJob(goodJob(), { ...goodFiles(), 'pickup.csv': text }));
      }),
      { numRuns: cases(1000) },
    );
  });

  it('on nesting without end and on megabytes of garbage', () => {
    const deep: unknown = JSON.parse(`${'['.repeat(200_000)}${']'.repeat(200_000)}`);
    for (const field of ['frame', 'shape', 'marks', 'saw', 'title'])
      expectLocated(parseJob({ ...goodJob(), [field]: deep }, goodFiles()));
    expectLocated(parseJob({ ...goodJob(), marks: { at: deep } }, goodFiles()));
    const wide = Object.fromEntries(Array.from({ length: 20_000 }, (_, i) => [`k${i}`, i]));
    expect(problemsOf({ ...goodJob(), ...wide }, goodFiles())).toHaveLength(PROBLEMS_SHOWN + 1);
    for (const bit of [',', '"', '1,2\n', '\u0000\u00e9']) {
      const text = bit.repeat(1_000_000 / bit.length);
      const result = parseJob(goodJob(), { ...goodFiles(), 'pickup.csv': text });
      expect(result.ok).toBe(false);
      expectLocated(result);
    }
    expect(problemsOf(goodJob(), { ...goodFiles(), 'pickup.csv': '0'.repeat(1_000_001) })[0]).toMatchObject({
      code: 'too-large',
      at: { file: 'pickup.csv' },
    });
  });
});
