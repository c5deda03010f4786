import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { parseJob } from '../../../server/wire/job/parseJob.ts';
import { PROBLEMS_SHOWN } from '../../../server/wire/problem/problemList.ts';
import { BODIES, type BodyName, jsonOfBody, readBody } from '../../../server/wire/request/bodies.ts';
import { jobGiven } from '../../../server/wire/request/requests.ts';
import { goodFiles, goodJob } from '../goodJobs.ts';

const bytesOf = (value: unknown): Uint8Array => new TextEncoder().encode(JSON.stringify(value));

describe('a body that is read in the thread', () => {
  const feed = { kind: 'external' };
  it.each<[BodyName, object]>([
    ['plan', { tiltHand: 'Ann' }],
    ['paper', { paper: 'a4' }],
    ['run', { mode: 'pair', feed }],
    ['save', { measured: 'along,bevel' }],
    ['trial', { whole: true }],
    ['measured', { measured: 'along,bevel' }],
  ])('%s is the same request, its job as text', (name, more) => {
    const body = { job: goodJob(), files: goodFiles(), ...more };
    const here = BODIES[name](body);
    const there = readBody(name, bytesOf(body));
    if (!here.ok || !there.ok || !('job' in there.value)) throw new Error('refused');
    expect(typeof there.value.job).toBe('string');
    expect({ ...there.value, job: jobGiven(there.value.job) }).toEqual(here.value);
  });

  it('is refused as it would be here, whatever it is', () => {
    fc.assert(
      fc.property(fc.constantFrom(...(Object.keys(BODIES) as BodyName[])), fc.object({ maxDepth: 3 }), (name, body) => {
        const sent: unknown = JSON.parse(JSON.stringify(body));
        const here = BODIES[name](sent);
        if (!here.ok) expect(readBody(name, bytesOf(sent))).toEqual(here);
      }),
    );
  });
});

test('bytes that are no JSON, no object or nested too deep are told so; no bytes are an empty object', () => {
  const code = (text: string): unknown => {
    const json = jsonOfBody(new TextEncoder().encode(text));
    return json.ok ? json.value : json.error.code;
  };
  expect(['{"a":', '{} {}', '7', 'null', '"x"'].map(code)).toEqual(Array(5).fill('not-json'));
  expect(code('['.repeat(1000))).toBe('bad-request');
  expect([code(''), code('\uFEFF{"a":1}')]).toEqual([{}, { a: 1 }]);
  fc.assert(fc.property(fc.uint8Array(), (bytes) => void jsonOfBody(bytes)));
});

test('of a hundred thousand unknown fields some are told, and how many more there are', () => {
  const unknown = Object.fromEntries(Array.from({ length: 100_000 }, (_, n) => [`unknown field ${n}`, 0]));
  const made = parseJob({ ...goodJob(), ...unknown }, goodFiles());
  const problems = made.ok ? [] : made.problems;
  expect(problems).toHaveLength(PROBLEMS_SHOWN + 1);
  expect(problems.at(-1)).toMatchObject({
    code: 'too-many',
    found: `${100_000 - PROBLEMS_SHOWN} more problems from here on`,
  });
});
