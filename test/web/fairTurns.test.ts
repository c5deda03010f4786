import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createTurns } from '../../server/web/fairTurns.ts';

const loopTurn = () => new Promise((resolve) => setImmediate(resolve));

/** Turns on a clock that goes on only while a piece is done, by what that piece is said to take. */
function house() {
  let now = 0;
  const reported: unknown[] = [];
  const done: string[] = [];
  const turns = createTurns(
    (error) => reported.push(error),
    () => now,
  );
  const piece = (name: string, ms: number) => () => {
    now += ms;
    done.push(name);
  };
  return { turns, done, reported, piece };
}

test('what nobody waits before is done at once', () => {
  const { turns, done, piece } = house();
  turns.open().add('a', piece('press', 0.5));
  expect(done).toEqual(['press']);
});

test('a run that asks for little comes before one that has had much, however much of that waits', async () => {
  const { turns, done, piece } = house();
  const flood = turns.open();
  for (let n = 0; n < 50; n += 1) flood.add('flooded', piece('flood', 1));
  await loopTurn();
  const doneBefore = done.length;
  turns.open().add('honest', piece('honest', 1));
  while (!done.includes('honest')) await loopTurn();
  // At most the piece that was being done is before it.
  expect(done.slice(doneBefore).indexOf('honest')).toBeLessThanOrEqual(1);
  while (done.length < 51) await loopTurn();
});

test('of the senders of one run the one with little comes first too', async () => {
  const { turns, done, piece } = house();
  const floods = Array.from({ length: 20 }, () => turns.open());
  for (let n = 0; n < 10; n += 1) for (const flood of floods) flood.add('run', piece('flood', 1));
  while (done.length < 60) await loopTurn();
  const doneBefore = done.length;
  turns.open().add('run', piece('honest', 1));
  while (!done.includes('honest')) await loopTurn();
  expect(done.slice(doneBefore).indexOf('honest')).toBeLessThanOrEqual(1);
});

test('no turn of the event loop takes longer than the time for it and one piece', async () => {
  const { turns, done, piece } = house();
  const line = turns.open();
  for (let n = 0; n < 40; n += 1) line.add('run', piece('x', 1.5));
  let before = done.length;
  while (done.length < 40) {
    await loopTurn();
    expect(done.length - before).toBeLessThanOrEqual(2);
    before = done.length;
  }
});

test('between the pieces of those who wait the loop goes round, so that a sender is read more often than they are done', async () => {
  const { turns, done, piece } = house();
  const flood = turns.open();
  for (let n = 0; n < 20; n += 1) flood.add('flooded', piece('flood', 20));
  const honest = turns.open();
  let rounds = 0;
  for (; done.length < 30; rounds += 1) {
    await loopTurn();
    if (rounds < 20) honest.add('honest', piece('honest', 0.1));
  }
  // One frame a round, and all of them are done while no more than a few pieces of the flood were.
  expect(done.slice(0, 26).filter((name) => name === 'honest').length).toBe(20);
});

test('a sender is done in its order, nothing is lost, and a piece that throws is told', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.record({ sender: fc.nat(4), ms: fc.double({ min: 0, max: 5, noNaN: true }), bad: fc.boolean() }), {
        maxLength: 60,
      }),
      async (asked) => {
        const { turns, done, reported, piece } = house();
        const lines = Array.from({ length: 5 }, () => turns.open());
        for (const [n, { sender, ms, bad }] of asked.entries()) {
          const work = piece(`${sender} ${n}`, ms);
          lines[sender]?.add(`run ${sender % 2}`, () => {
            work();
            if (bad) throw new Error('bad');
          });
          if (n % 7 === 0) await loopTurn();
        }
        for (let n = 0; done.length < asked.length && n < 2000; n += 1) await loopTurn();
        expect(done).toHaveLength(asked.length);
        expect(reported).toHaveLength(asked.filter(({ bad }) => bad).length);
        for (let sender = 0; sender < 5; sender += 1) {
          const numbers = done
            .filter((name) => name.startsWith(`${sender} `))
            .map((name) => Number(name.split(' ')[1]));
          expect(numbers).toEqual(numbers.toSorted((a, b) => a - b));
        }
      },
    ),
    { numRuns: 40 },
  );
});

test('a piece by itself gives what it gives, or fails as it fails', async () => {
  const { turns } = house();
  expect(await turns.take('a', () => 7)).toBe(7);
  expect(await turns.take('a', async () => 8)).toBe(8);
  await expect(turns.take('a', () => Promise.reject(new Error('no')))).rejects.toThrow('no');
  await expect(
    turns.take('a', () => {
      throw new Error('nor this');
    }),
  ).rejects.toThrow('nor this');
});
