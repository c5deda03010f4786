import { describe, expect, it } from 'vitest';
import { filesNamedBy, parseJobText } from '../../../server/wire/job/jobFile.ts';

const problemOf = (text: string) => {
  const result = parseJobText('job.json', text);
  return result.ok ? undefined : result.problems[0];
};

describe('the text of a job file', () => {
  it('is JSON, with or without a byte order mark', () => {
    expect(parseJobText('job.json', '\uFEFF{ "units": "mm" }')).toEqual({ ok: true, value: { units: 'mm' } });
  });

  it('that breaks off is refused with the line', () => {
    expect(problemOf('{\n  "units": mm\n}')).toMatchObject({ code: 'not-json', at: { file: 'job.json', line: 2 } });
    expect(problemOf('{\n  "units": "mm",\n')).toMatchObject({ code: 'not-json', at: { line: 3 } });
    const long = `{\n${Array.from({ length: 5000 }, (_, i) => `"k${i}": [${i}, -1.5e3, true, "\\u00e9"],\n`).join('')}`;
    expect(problemOf(`${long}'x': 1\n}`)).toMatchObject({ found: '"\'x\': 1"', at: { line: 5002 } });
    expect(problemOf(`${long}}`)).toMatchObject({ found: '"}"', at: { line: 5002 } });
    expect(problemOf('  ')).toMatchObject({ found: 'an empty file' });
    expect(problemOf('{ // hello\n}')).toMatchObject({
      at: { line: 1 },
      wanted: expect.stringContaining('no comments'),
    });
  });

  it('of any kind never throws', () => {
    for (const text of ['\u0000', '[', '{"a":'.repeat(100_000), '\ud800', '"', 'nul', '{"a":1,}', "{'a':1}"])
      expect(problemOf(text)).toMatchObject({ code: 'not-json', found: expect.stringMatching(/./) });
    expect(problemOf('0'.repeat(1_000_001))).toMatchObject({ code: 'too-large' });
  });
});

describe('the files that a job names', () => {
  it('are its tables', () => {
    expect(filesNamedBy({ shape: { pickup: ' p.csv', pattern: 'e.csv' } })).toEqual(['p.csv', 'e.csv']);
  });
  it('are none where the job is none, and never what cannot be a name', () => {
    for (const job of [
      null,
      [],
      'x',
      {},
      { shape: 5 },
      { shape: { pickup: 5 } },
      { shape: { pickup: 'a\u0000b', pattern: '' } },
    ])
      expect(filesNamedBy(job)).toEqual([]);
  });
});
