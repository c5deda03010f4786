/** What each line of a record makes of what is shown beside the engine's state. */
import { expect, test } from 'vitest';
import { type Beside, besideAfter, NOTHING_BESIDE } from '../../server/live/record/beside.ts';
import type { JournalEntry } from '../../server/wire/kept/journalLine.ts';

const after = (...entries: readonly JournalEntry[]): Beside => entries.reduce(besideAfter, NOTHING_BESIDE);
const bevel = (id: string): JournalEntry => ({
  kind: 'called',
  atMs: 1,
  id,
  to: 'everyone',
  text: 'twelve',
  deg: 12,
  startsAtMs: 1,
  durationMs: 500,
});
const told = (code: 'too-soon' | 'call-missed' | 'two-feeding' | 'too-fast'): JournalEntry => ({
  kind: 'told',
  atMs: 1,
  code,
  message: code,
});
const moved: JournalEntry = { kind: 'moved', atMs: 1, mm: 3 };
const pressed: JournalEntry = { kind: 'pressed', atMs: 1, gesture: 'next' };
const unheard: JournalEntry = { kind: 'unheard', atMs: 1, call: 'a' };
const unplayed = (call: string, listener: string): JournalEntry => ({
  kind: 'unplayed',
  atMs: 1,
  call,
  listener,
  reason: 'late',
});
const codes = ({ notices }: Beside): readonly string[] => notices.map(({ code }) => code);

test('what the readout showed last with the blade square', () => {
  expect(NOTHING_BESIDE.squareSeenDeg).toBeNull();
  const twice = after({ kind: 'squared', atMs: 1, seenDeg: 0.5 }, { kind: 'squared', atMs: 2, seenDeg: 0 });
  expect(twice.squareSeenDeg).toBe(0);
});

test('a press that came too soon is told until something is meant; a reading by itself means nothing', () => {
  expect(codes(after(told('too-soon'), moved, { kind: 'woken', atMs: 2 }))).toEqual(['too-soon']);
  expect(codes(after(told('too-soon'), pressed))).toEqual([]);
  expect(codes(after(told('too-soon'), bevel('a')))).toEqual([]);
});

test('a call that was missed is told until a bevel is called, or the run is ended: not only until a press', () => {
  expect(codes(after(told('call-missed'), pressed, { kind: 'stopped', atMs: 1, by: 'page' }))).toEqual(['call-missed']);
  expect(codes(after(told('call-missed'), bevel('a')))).toEqual([]);
  expect(codes(after(told('call-missed'), { kind: 'ended', atMs: 1 }))).toEqual([]);
});

test('words without a bevel end nothing', () => {
  const { deg: _, ...words } = bevel('a') as Extract<JournalEntry, { kind: 'called' }>;
  expect(codes(after(told('call-missed'), words))).toEqual(['call-missed']);
});

test('of two of one kind the later one stands, and the one told last is last; what the run itself tells is not here', () => {
  const both = after(told('call-missed'), told('too-soon'), {
    ...told('call-missed'),
    message: 'again',
  } as JournalEntry);
  expect(both.notices.map(({ message }) => message)).toEqual(['too-soon', 'again']);
  expect(codes(after(told('two-feeding'), told('too-fast')))).toEqual([]);
});

test('who could not play the last bevel, each once; of another call nothing', () => {
  expect(after(bevel('a'), unplayed('a', 'w'), unplayed('a', 'w'), unplayed('b', 'x')).bevelCall).toEqual({
    id: 'a',
    unplayedBy: ['w'],
    again: 0,
  });
  expect(after(bevel('a'), unplayed('a', 'w'), bevel('b')).bevelCall).toMatchObject({ id: 'b', unplayedBy: [] });
});

test('how often a bevel was said again; one that could not be is no repeat of the next', () => {
  expect(after(bevel('a'), unheard, bevel('b'), unheard, bevel('c')).bevelCall?.again).toBe(2);
  expect(after(bevel('a'), unheard, bevel('b'), pressed, bevel('c')).bevelCall?.again).toBe(0);
  expect(after(bevel('a'), unheard, moved, bevel('c')).bevelCall?.again).toBe(0);
});

test('a line that says nothing of it leaves the very same', () => {
  const before = after(told('too-soon'), bevel('a'));
  expect(besideAfter(before, moved)).toBe(before);
  expect(besideAfter(before, pressed)).toBe(before);
});
