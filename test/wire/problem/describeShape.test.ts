import { expect, test } from 'vitest';
import { z } from 'zod';
import { describeShape } from '../../../server/wire/problem/describeShape.ts';

const message = z.strictObject({ kind: z.enum(['press']), at: z.strictObject({ mm: z.number() }) });
const said = (value: unknown, shape: z.ZodType = message) => {
  const parsed = shape.safeParse(value);
  if (parsed.success) throw new Error('nothing is wrong with it');
  return describeShape(parsed.error, value);
};

test('a field is named with its path, what was wanted and what is there', () => {
  expect(said({ kind: 'press', at: { mm: '12' } })).toMatchObject({
    code: 'bad-shape',
    path: 'at.mm',
    message: expect.stringMatching(/^at\.mm: .*number.*, found "12"$/),
  });
  expect(said({ kind: 'press' })).toMatchObject({ path: 'at', message: expect.stringMatching(/, found nothing$/) });
});

test('what is no message at all has no path', () => {
  expect(said('hello')).toEqual({ code: 'bad-shape', message: expect.stringMatching(/^message: .*, found "hello"$/) });
});

test('a field that there is not is named, and how many more there are not', () => {
  expect(said({ kind: 'press', at: { mm: 1, cm: 2 } })).toEqual({
    code: 'bad-shape',
    path: 'at.cm',
    message: 'at: there is no field "cm" here',
  });
  expect(said({ kind: 'press', at: { mm: 1 }, a: 1, b: 2, c: 3 }).message).toBe(
    'message: there is no field "a" here, nor 2 more that were sent',
  );
});

test('of several kinds those that there are, are told', () => {
  const either = z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('press') }),
    z.object({ kind: z.literal('scan') }),
  ]);
  expect(said({ kind: 'shout' }, either).message).toMatch(/^kind: .*, found "shout"$/);
});
