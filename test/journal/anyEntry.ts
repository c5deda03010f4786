import * as fc from 'fast-check';
import type { JournalEntry } from '../../server/wire/kept/journalLine.ts';

// JSON has no -0: adding 0 makes it 0.
const number = fc.double({ min: -1e7, max: 1e7, noNaN: true }).map((x) => x + 0);
const atMs = fc.double({ min: 0, max: 4e12, noNaN: true }).map((x) => x + 0);
const mark = fc.integer({ min: 1, max: 2000 });
const text = fc.string({ unit: 'binary', maxLength: 40 });
const lifeline = fc.constantFrom('travel', 'sound');
const is = <const K extends string>(kind: K) => fc.constant(kind);

/** One generator a kind; the compiler asks for a new one when a kind is added. */
const byKind: { readonly [K in JournalEntry['kind']]: fc.Arbitrary<Extract<JournalEntry, { readonly kind: K }>> } = {
  started: fc.record(
    {
      kind: is('started'),
      atMs,
      withoutSound: fc.boolean(),
      square: fc.constantFrom('confirmed', 'not confirmed'),
    },
    { requiredKeys: ['kind', 'atMs', 'withoutSound'] },
  ),
  squared: fc.record({ kind: is('squared'), atMs, seenDeg: number }),
  pressed: fc.record(
    { kind: is('pressed'), atMs, gesture: fc.constantFrom('next', 'again', 'back', 'stop'), id: text, ageMs: number },
    { requiredKeys: ['kind', 'atMs', 'gesture'] },
  ),
  scanned: fc.record(
    { kind: is('scanned'), atMs, mark, offsetMm: number, id: text, ageMs: number },
    { requiredKeys: ['kind', 'atMs', 'mark', 'offsetMm'] },
  ),
  moved: fc.record(
    { kind: is('moved'), atMs, mm: number, id: text, ageMs: number },
    { requiredKeys: ['kind', 'atMs', 'mm'] },
  ),
  tilted: fc.record(
    { kind: is('tilted'), atMs, deg: number, id: text, ageMs: number },
    { requiredKeys: ['kind', 'atMs', 'deg'] },
  ),
  unheard: fc.record({ kind: is('unheard'), atMs, call: text }),
  'heard-by': fc.record({
    kind: is('heard-by'),
    atMs,
    hears: fc.constantFrom('bevels' as const, 'stops' as const, 'nobody' as const),
  }),
  'heard-after': fc.record({ kind: is('heard-after'), atMs, delayMs: number }),
  stopped: fc.record({ kind: is('stopped'), atMs, by: fc.constantFrom('page', 'restart') }),
  resumed: fc.record({ kind: is('resumed'), atMs }),
  ended: fc.record({ kind: is('ended'), atMs }),
  damaged: fc.record({ kind: is('damaged'), atMs, fromLine: mark, toLine: fc.option(mark) }),
  placed: fc.record({ kind: is('placed'), atMs, mark }),
  'signal-lost': fc.record({ kind: is('signal-lost'), atMs, lifeline, detail: text }),
  woken: fc.record({ kind: is('woken'), atMs }),
  made: fc.record({
    kind: is('made'),
    atMs,
    mode: fc.constantFrom('pair', 'solo', 'rehearsal'),
    feed: fc.oneof(
      fc.record({ kind: is('external') }),
      fc.record({ kind: is('simulated'), mPerMin: number, seed: mark }),
    ),
    title: text,
  }),
  called: fc.record(
    {
      kind: is('called'),
      atMs,
      id: text,
      to: fc.constantFrom('tilt hand', 'sawyer', 'everyone'),
      text,
      mark,
      deg: number,
      startsAtMs: atMs,
      durationMs: number,
      cause: text,
    },
    { requiredKeys: ['kind', 'atMs', 'id', 'to', 'text', 'startsAtMs', 'durationMs'] },
  ),
  cancelled: fc.record({ kind: is('cancelled'), atMs, id: text }),
  missed: fc.record({ kind: is('missed'), atMs, mark, reason: text }),
  told: fc.record(
    { kind: is('told'), atMs, code: fc.constantFrom('mark-skipped', 'too-fast', 'restarted'), message: text, mark },
    { requiredKeys: ['kind', 'atMs', 'code', 'message'] },
  ),
  listener: fc.record({
    kind: is('listener'),
    atMs,
    listener: text,
    role: fc.constantFrom('sawyer', 'wheel'),
    hearing: fc.constantFrom('loading', 'silent', 'confirmed', 'suspended', 'gone'),
  }),
  unplayed: fc.record({ kind: is('unplayed'), atMs, call: text, listener: text, reason: text }),
};

/** Entries of every kind that a journal keeps, with and without their optional fields. */
export const anyEntry: fc.Arbitrary<JournalEntry> = fc.oneof(...Object.values(byKind));
