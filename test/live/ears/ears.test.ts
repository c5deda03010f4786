import { expect, test } from 'vitest';
import { createEars } from '../../../server/live/ears/ears.ts';
import type { Listener } from '../../../server/wire/message/messages.ts';

const listener = (over: Partial<Listener>): Listener => ({
  id: 'a',
  label: 'Wheel display, bevels',
  role: 'wheel',
  hearing: 'confirmed',
  delayMs: 20,
  ...over,
});

test('the lead waits for the slowest of those who hear the bevels: at the wheel, else anywhere', () => {
  const ears = createEars();
  ears.changed('1', listener({ role: 'sawyer', delayMs: 200 }));
  expect(ears.slowestMs()).toBe(200);
  ears.changed('2', listener({ delayMs: 60 }));
  expect(ears.slowestMs()).toBe(60);
  ears.changed('3', listener({ delayMs: 300, isWithoutBevels: true }));
  expect(ears.slowestMs()).toBe(60);
  ears.changed('4', listener({ delayMs: 150, hearing: 'suspended' }));
  expect(ears.slowestMs()).toBe(60);
});

test('the last who heard the bevels is lost, though another still hears the stops', () => {
  const ears = createEars();
  ears.changed('sawyer', listener({ role: 'sawyer', isWithoutBevels: true }));
  ears.changed('wheel', listener({}));
  expect(ears.changed('wheel', listener({ hearing: 'suspended' }))?.isLastEarLost).toBe(true);
  ears.changed('wheel', listener({}));
  expect(ears.changed('wheel', listener({ isWithoutBevels: true }))?.isLastEarLost).toBe(true);
  ears.changed('wheel', listener({}));
  expect(ears.changed('sawyer', null)?.isLastEarLost).toBe(false);
  expect(ears.changed('wheel', null)?.isLastEarLost).toBe(true);
});

test('where nobody heard bevels, the last ear of all is what can be lost', () => {
  const ears = createEars();
  ears.changed('sawyer', listener({ isWithoutBevels: true }));
  expect(ears.changed('sawyer', null)?.isLastEarLost).toBe(true);
});

test('what has not changed is nothing, and a change of delay is only that', () => {
  const ears = createEars();
  ears.changed('1', listener({}));
  expect(ears.changed('1', listener({}))).toBeNull();
  expect(ears.changed('1', listener({ delayMs: 90 }))?.isOnlyDelay).toBe(true);
  expect(ears.changed('2', null)).toBeNull();
});

test('a place is kept through a short absence, and taken up by the page that comes back', () => {
  const ears = createEars();
  ears.changed('1', listener({}));
  expect(ears.leftFor('1', 1000)).toBe(true);
  expect(ears.heard()).toBe('bevels');
  expect(ears.hearingBevels()).toEqual([]);
  expect(ears.changed('2', listener({ hearing: 'loading' }))).toMatchObject({ isLastEarLost: false });
  expect(ears.list()).toHaveLength(1);
  expect(ears.changed('2', listener({}))).toMatchObject({ isLastEarLost: false });
  expect([ears.list().length, ears.hearingBevels()]).toEqual([1, ['2']]);
  ears.leftFor('2', 2000);
  expect(ears.changed('3', listener({}))).toBeNull();
  expect(ears.hearingBevels()).toEqual(['3']);
  expect(ears.overdue(10_000, 'not known')).toEqual([]);
});

test('nobody keeps a place who had not confirmed, or comes back deaf', () => {
  const ears = createEars();
  ears.changed('1', listener({ hearing: 'silent' }));
  expect(ears.leftFor('1', 1000)).toBe(false);
  ears.changed('1', listener({}));
  ears.leftFor('1', 1000);
  expect(ears.changed('2', listener({ hearing: 'suspended' }))).toMatchObject({ isLastEarLost: true });
});

test('is waited for for 1.3 s, while a call that waits is still in time (half a second where nothing tells), and not while the server itself stood still', () => {
  const ears = createEars();
  ears.changed('1', listener({}));
  expect(ears.overdue(1e9, null)).toEqual([]);
  ears.alive('1', 1000);
  expect(ears.overdue(2300, 'not known')).toEqual([]);
  expect(ears.overdue(2301, null)).toEqual(['1']);
  ears.forgive(3000);
  expect(ears.overdue(5300, null)).toEqual([]);
  ears.leftFor('1', 4100);
  expect(ears.overdue(4601, null)).toEqual([]);
  expect(ears.overdue(4601, 'not known')).toEqual(['1']);
  expect(ears.overdue(4601, 'in time')).toEqual([]);
  expect(ears.overdue(4101, 'too late')).toEqual(['1']);
});

test('a page that was silent and has told of itself since is not brought back as it was', () => {
  const ears = createEars();
  ears.changed('1', listener({}));
  const remember = ears.fellSilent('1');
  ears.changed('1', null);
  remember?.();
  expect(ears.alive('1', 2000)).toMatchObject({ hearing: 'confirmed' });
  ears.changed('1', listener({ hearing: 'suspended' }));
  expect(ears.alive('1', 2100)).toBeNull();
});
