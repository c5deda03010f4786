/**
 * The shapes of what the journal gives back, checked when it is read: what lies on a disk is not to be trusted.
 * The types below make the compiler refuse this file when a field is added to or taken from an entry and not here.
 */
import { z } from 'zod';
import type { RunSetup, Station } from '../core/run/state.ts';
import type { FeedChoice, JournalEntry } from '../wire/journalLine.ts';
import type { Clip } from '../wire/messages.ts';

type Fields<T> = { readonly [F in keyof T]-?: z.ZodType<T[F]> };
type FieldsOfEntries = {
  readonly [K in JournalEntry['kind']]: Fields<Extract<JournalEntry, { readonly kind: K }>>;
};

const text = z.string();
const number = z.number();
const atMs = number;
const id = text.exactOptional();
const lifeline = z.enum(['travel', 'sound']);
const mode = z.enum(['pair', 'solo', 'rehearsal']);

export const feedChoice: z.ZodType<FeedChoice> = z.discriminatedUnion('kind', [
  z.looseObject({ kind: z.literal('external') }),
  z.looseObject({ kind: z.literal('simulated'), mPerMin: number, seed: number }),
]);

const entries: FieldsOfEntries = {
  started: { kind: z.literal('started'), atMs, withoutSound: z.boolean() },
  pressed: { kind: z.literal('pressed'), atMs, gesture: z.enum(['next', 'again', 'back', 'stop']), id },
  scanned: { kind: z.literal('scanned'), atMs, mark: number, offsetMm: number, id },
  moved: { kind: z.literal('moved'), atMs, mm: number, id },
  tilted: { kind: z.literal('tilted'), atMs, deg: number, id },
  stopped: { kind: z.literal('stopped'), atMs, by: z.enum(['page', 'restart']) },
  resumed: { kind: z.literal('resumed'), atMs },
  ended: { kind: z.literal('ended'), atMs },
  'signal-lost': { kind: z.literal('signal-lost'), atMs, lifeline, detail: text },
  'signal-back': { kind: z.literal('signal-back'), atMs, lifeline },
  woken: { kind: z.literal('woken'), atMs },
  made: { kind: z.literal('made'), atMs, mode, feed: feedChoice, title: text },
  called: {
    kind: z.literal('called'),
    atMs,
    id: text,
    to: z.enum(['tilt hand', 'sawyer', 'everyone']),
    text,
    mark: number.exactOptional(),
    deg: number.exactOptional(),
    startsAtMs: number,
    durationMs: number,
    cause: id,
  },
  cancelled: { kind: z.literal('cancelled'), atMs, id: text },
  missed: { kind: z.literal('missed'), atMs, mark: number, reason: text },
  told: {
    kind: z.literal('told'),
    atMs,
    code: z.enum([
      'mark-skipped',
      'mark-doubled',
      'mark-behind',
      'call-missed',
      'pulled-back',
      'too-fast',
      'signal-lost',
      'moved-while-stopped',
      'restarted',
    ]),
    message: text,
    mark: number.exactOptional(),
  },
  listener: {
    kind: z.literal('listener'),
    atMs,
    listener: text,
    role: z.enum(['sawyer', 'wheel']),
    hearing: z.enum(['loading', 'silent', 'confirmed', 'suspended', 'gone']),
  },
  unplayed: { kind: z.literal('unplayed'), atMs, call: text, listener: text, reason: text },
};

/** Fields that this program does not know are kept: a line is given back as it was taken. */
const entryShapes = new Map<string, z.ZodType>(
  Object.entries(entries).map(([kind, fields]) => [kind, z.looseObject(fields)]),
);

/** What is wrong with a value as a journal entry, in words; undefined when it is one. */
export function faultOfEntry(value: unknown): string | undefined {
  const kind = (value as { readonly kind?: unknown } | null)?.kind;
  const shape = typeof kind === 'string' ? entryShapes.get(kind) : undefined;
  if (shape === undefined) return `its kind is ${JSON.stringify(kind) ?? 'missing'}`;
  const parsed = shape.safeParse(value);
  return parsed.success ? undefined : firstFault(parsed.error);
}

const stationFields: Fields<Station> = { mark: number, positionMm: number, tiltDeg: number, callDeg: number };
const setupFields = {
  mode,
  stations: z.array(z.looseObject(stationFields)),
  callTexts: z.array(text),
  durationsMs: z.record(text, number),
  profile: z.looseObject({ positionsMm: z.array(number), tiltsDeg: z.array(number) }),
  crew: z.looseObject({ reactionS: number, turnsPerS: number }),
  degreesPerTurn: number,
} satisfies Fields<RunSetup>;
const clipFields = {
  text,
  url: text,
  durationMs: number,
  deg: number.exactOptional(),
  mark: number.exactOptional(),
} satisfies Fields<Clip>;

export const setup: z.ZodType<RunSetup> = z.looseObject(setupFields);
export const clips: z.ZodType<readonly Clip[]> = z.array(z.looseObject(clipFields));
/** A plan is made by this program and goes in and out whole: its format is what is checked. */
export const planFormat = z.looseObject({ format: z.literal('by-the-mark/plan@1') });

export function firstFault(error: z.ZodError): string {
  const issue = error.issues[0];
  return issue === undefined ? 'not understood' : `${issue.path.map(String).join('.')}: ${issue.message}`;
}
