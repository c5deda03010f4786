import { expect, test } from 'vitest';
import { createEars } from '../../server/live/ears.ts';
import type { Listener } from '../../server/wire/messages.ts';

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
