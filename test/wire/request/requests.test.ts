import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../../server/core/errors.ts';
import { problemsToWireError } from '../../../server/wire/problem/wireError.ts';
import { parsePlanRequest, parseRunRequest, parseSoundRequest } from '../../../server/wire/request/requests.ts';
import { goodFiles, goodJob } from '../goodJobs.ts';

const plan = () => ({ job: goodJob(), files: goodFiles() });
const run = () => ({ ...plan(), mode: 'pair', feed: { kind: 'external' } });

describe('a plan request', () => {
  it('carries the job and its files', () => {
    expect(parsePlanRequest(plan())).toMatchObject({ ok: true, value: plan() });
    expect(parsePlanRequest({ job: {} })).toMatchObject({ ok: true, value: { job: {}, files: {} } });
  });

  it.each([
    ['no body', undefined, undefined],
    ['no job', { files: {} }, 'job'],
    ['a job that is text', { job: '{}' }, 'job'],
    ['files in a list', { job: {}, files: ['a'] }, 'files'],
    ['a file that is no text', { job: {}, files: { 'p.csv': 5 } }, 'files.p.csv'],
    ['a field too many', { job: {}, jobs: {} }, 'jobs'],
  ])('with %s is refused', (_, body, path) => {
    expect(parsePlanRequest(body)).toMatchObject({ ok: false, error: { code: 'bad-shape', ...(path && { path }) } });
  });

  it('too large is refused', () => {
    const many = Object.fromEntries(Array.from({ length: 21 }, (_, i) => [`${i}.csv`, '']));
    expect(parsePlanRequest({ job: {}, files: many })).toMatchObject({ error: { code: 'too-large', path: 'files' } });
    const long = { 'p.csv': '0'.repeat(1_000_001) };
    expect(parsePlanRequest({ job: {}, files: long })).toMatchObject({
      error: { code: 'too-large', path: 'files.p.csv' },
    });
  });

  it('takes a file called __proto__ for a file', () => {
    const body: unknown = JSON.parse('{"job":{},"files":{"__proto__":"girth"}}');
    const parsed = parsePlanRequest(body);
    expect(parsed.ok && Object.entries(parsed.value.files)).toEqual([['__proto__', 'girth']]);
  });
});

describe('a run request', () => {
  it('says the mode and the feed', () => {
    expect(parseRunRequest(run())).toMatchObject({ ok: true, value: { mode: 'pair', feed: { kind: 'external' } } });
    const simulated = { kind: 'simulated', mPerMin: 3, seed: 7 };
    expect(parseRunRequest({ ...run(), mode: 'rehearsal', feed: simulated })).toMatchObject({
      value: { feed: simulated },
    });
    expect(parseRunRequest({ ...run(), feed: { kind: 'simulated', mPerMin: 3 } })).toMatchObject({
      value: { feed: { seed: 1 } },
    });
  });

  it.each([
    [{ mode: 'trio' }, 'mode'],
    [{ mode: undefined }, 'mode'],
    [{ feed: undefined }, 'feed'],
    [{ feed: { kind: 'guessed' } }, 'feed.kind'],
    [{ feed: { kind: 'external', seed: 1 } }, 'feed.seed'],
    [{ feed: { kind: 'simulated', mPerMin: 0, seed: 1 } }, 'feed.mPerMin'],
    [{ feed: { kind: 'simulated', mPerMin: 3, seed: 0.5 } }, 'feed.seed'],
    [{ job: [] }, 'job'],
  ])('with %j is refused', (change, path) => {
    expect(parseRunRequest({ ...run(), ...change })).toMatchObject({ ok: false, error: { path } });
  });
});

describe('a start request', () => {
  it('needs no body', () => {
    for (const body of [undefined, null, {}])
      expect(parseSoundRequest(body)).toEqual({ ok: true, value: { withoutSound: false } });
    expect(parseSoundRequest({ withoutSound: true })).toEqual({ ok: true, value: { withoutSound: true } });
  });
  it('is refused where it is not understood', () => {
    expect(parseSoundRequest({ withoutSound: 'yes' })).toMatchObject({ ok: false, error: { path: 'withoutSound' } });
    expect(parseSoundRequest({ without: true })).toMatchObject({ ok: false, error: { path: 'without' } });
  });
});

describe('any body', () => {
  it('is taken or refused with words, never a throw (1,000 bodies)', () => {
    const change = fc.record({ name: fc.constantFrom('job', 'files', 'mode', 'feed', 'x'), value: fc.anything() });
    fc.assert(
      fc.property(fc.anything(), fc.array(change, { maxLength: 3 }), (anything, changes) => {
        const spoilt = { ...run(), ...Object.fromEntries(changes.map(({ name, value }) => [name, value])) };
        for (const body of [anything, spoilt])
          for (const parsed of [parsePlanRequest(body), parseRunRequest(body), parseSoundRequest(body)])
            if (!parsed.ok) expect(parsed.error.code && parsed.error.message).toBeTruthy();
      }),
      { numRuns: 1000 },
    );
  });
});

describe('the problems of a job as one error', () => {
  const at = (place: Problem['at']): Problem => ({ code: 'missing', at: place, found: 'nothing', wanted: 'a length' });
  it("has a line for each, and the first one's code and path", () => {
    expect(
      problemsToWireError([at({ field: 'frame.siding' }), at({ file: 'p.csv', row: 3, column: 'girth' })]),
    ).toEqual({
      code: 'missing',
      path: 'frame.siding',
      message:
        'frame.siding: found nothing; wanted a length\np.csv, row 3, column girth: found nothing; wanted a length',
    });
    expect(problemsToWireError([at({ file: 'p.csv', row: 3, line: 5, column: 'girth' })]).path).toBe(
      'p.csv, row 3 (line 5), column girth',
    );
  });
  it('is impossible without a problem', () => {
    expect(() => problemsToWireError([])).toThrow('at least one problem');
  });
});
