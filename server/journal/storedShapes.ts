/**
 * The shapes of what the journal gives back, checked when it is read: what lies on a disk is not to be trusted.
 * The types below make the compiler refuse this file when a field is added to or taken from an entry and not here.
 */
import { z } from 'zod';
import { type DegreeStep, ROUTINES, type RunMode } from '../core/routine/routine.ts';
import type { Audience, Gesture, Heard, Lifeline, NoticeCode } from '../core/run/engine/events.ts';
import type { RunSetup, Station } from '../core/run/engine/state.ts';
import type { Phrases } from '../core/words/phraseNames.ts';
import type { FeedChoice, JournalEntry } from '../wire/kept/journalLine.ts';
import type { Clip, Hearing, Role } from '../wire/message/messages.ts';

type Fields<T> = { readonly [F in keyof T]-?: z.ZodType<T[F]> };
type Kinds<U extends { readonly kind: string }> = {
  readonly [K in U['kind']]: Fields<Extract<U, { readonly kind: K }>>;
};

/** One shape for a union told apart by `kind`. Fields that this program does not know are kept: a line is given back as it was taken. */
function byKind<U extends { readonly kind: string }>(kinds: Kinds<U>): z.ZodType<U> {
  const shapes = Object.values<z.ZodRawShape>(kinds).map((fields) => z.looseObject(fields));
  return z.discriminatedUnion('kind', shapes as never) as unknown as z.ZodType<U>;
}

/** One of the words of a union; the record makes the compiler ask for each of them. */
const oneOf = <W extends string>(words: Readonly<Record<W, true>>): z.ZodType<W> => z.enum(Object.keys(words) as W[]);

const text = z.string();
const number = z.number();
const atMs = number;
const id = text.exactOptional();
const ageMs = number.exactOptional();
const lifeline = oneOf<Lifeline>({ travel: true, sound: true, server: true });
const heard = oneOf<Heard>({ bevels: true, stops: true, nobody: true });
const mode = oneOf<RunMode>({ pair: true, solo: true, rehearsal: true });
const routine = z.enum(ROUTINES);
const gesture = oneOf<Gesture>({ next: true, again: true, back: true, stop: true });
const audience = oneOf<Audience>({ 'tilt hand': true, sawyer: true, everyone: true });
const role = oneOf<Role>({ sawyer: true, wheel: true });
const hearing = oneOf<Hearing | 'gone'>({ loading: true, silent: true, confirmed: true, suspended: true, gone: true });
const stopper = oneOf<Extract<JournalEntry, { readonly kind: 'stopped' }>['by']>({ page: true, restart: true });
const noticeCode = oneOf<NoticeCode>({
  'mark-skipped': true,
  'mark-doubled': true,
  'mark-behind': true,
  'mark-doubtful': true,
  'mark-guessed': true,
  'too-soon': true,
  'call-missed': true,
  'pulled-back': true,
  'too-fast': true,
  'signal-lost': true,
  'moved-while-stopped': true,
  restarted: true,
  damaged: true,
  'count-restarted': true,
  'signal-seen': true,
  'two-feeding': true,
  'not-kept': true,
});

export const feedChoice = byKind<FeedChoice>({
  external: { kind: z.literal('external') },
  simulated: { kind: z.literal('simulated'), mPerMin: number, seed: number },
});

const squareWord = z.enum(['confirmed', 'not confirmed']);

const entry = byKind<JournalEntry>({
  started: { kind: z.literal('started'), atMs, withoutSound: z.boolean(), square: squareWord.exactOptional() },
  pressed: { kind: z.literal('pressed'), atMs, gesture, id, ageMs },
  scanned: { kind: z.literal('scanned'), atMs, mark: number, offsetMm: number, id, ageMs },
  moved: { kind: z.literal('moved'), atMs, mm: number, id, ageMs },
  tilted: { kind: z.literal('tilted'), atMs, deg: number, id, ageMs },
  'heard-after': { kind: z.literal('heard-after'), atMs, delayMs: number },
  stopped: { kind: z.literal('stopped'), atMs, by: stopper },
  unheard: { kind: z.literal('unheard'), atMs, call: text },
  'heard-by': { kind: z.literal('heard-by'), atMs, hears: heard },
  resumed: { kind: z.literal('resumed'), atMs, withoutSound: z.boolean().exactOptional() },
  ended: { kind: z.literal('ended'), atMs },
  damaged: { kind: z.literal('damaged'), atMs, fromLine: number, toLine: number.nullable() },
  placed: { kind: z.literal('placed'), atMs, mark: number },
  'signal-lost': { kind: z.literal('signal-lost'), atMs, lifeline, detail: text },
  woken: { kind: z.literal('woken'), atMs },
  made: { kind: z.literal('made'), atMs, mode, feed: feedChoice, title: text, despite: text.exactOptional() },
  called: {
    kind: z.literal('called'),
    atMs,
    id: text,
    to: audience,
    text,
    mark: number.exactOptional(),
    deg: number.exactOptional(),
    startsAtMs: number,
    durationMs: number,
    cause: id,
  },
  squared: { kind: z.literal('squared'), atMs, seenDeg: number },
  cancelled: { kind: z.literal('cancelled'), atMs, id: text },
  missed: { kind: z.literal('missed'), atMs, mark: number, reason: text },
  told: {
    kind: z.literal('told'),
    atMs,
    code: noticeCode,
    message: text,
    mark: number.exactOptional(),
  },
  listener: {
    kind: z.literal('listener'),
    atMs,
    listener: text,
    role,
    hearing,
  },
  unplayed: { kind: z.literal('unplayed'), atMs, call: text, listener: text, reason: text },
});

/** What is wrong with a value as a journal entry, in words; undefined when it is one. */
export function faultOfEntry(value: unknown): string | undefined {
  const parsed = entry.safeParse(value);
  return parsed.success ? undefined : firstFault(parsed.error);
}

const stationFields: Fields<Station> = { mark: number, positionMm: number, tiltDeg: number, callDeg: number };
const stepFields: Fields<DegreeStep> = {
  positionMm: number,
  deadlineMm: number,
  callDeg: number,
  isWhole: z.boolean(),
  text,
};
const phraseFields: Fields<Phrases> = {
  stopFeed: text,
  signalLost: text,
  pulledBack: text,
  easeFeed: text,
  runDone: text,
  soundTest: text,
};
const setupFields = {
  mode,
  routine,
  stations: z.array(z.looseObject(stationFields)),
  callTexts: z.array(text),
  shortTexts: z.array(text).exactOptional(),
  shortestTexts: z.array(text).exactOptional(),
  phrases: z.looseObject(phraseFields).exactOptional(),
  steps: z.array(z.looseObject(stepFields)).exactOptional(),
  durationsMs: z.record(text, number),
  profile: z.looseObject({ positionsMm: z.array(number), tiltsDeg: z.array(number) }),
  crew: z.looseObject({ reactionS: number, turnsPerS: number, feedMPerMin: number }),
  degreesPerTurn: number,
  turnsTable: z.array(z.tuple([number, number])).exactOptional(),
  backlashTurns: number.exactOptional(),
  sawFeedMPerMin: number.exactOptional(),
  fastestMPerMin: number.exactOptional(),
} satisfies Fields<RunSetup>;
const clipFields = {
  text,
  url: text,
  durationMs: number,
  deg: number.exactOptional(),
  mark: number.exactOptional(),
  voice: text.exactOptional(),
} satisfies Fields<Clip>;

export const setup: z.ZodType<RunSetup> = z.looseObject(setupFields);
export const clips: z.ZodType<readonly Clip[]> = z.array(z.looseObject(clipFields));
/** A plan is made by this program and goes in and out whole: its format is what is checked. */
export const planFormat = z.looseObject({ format: z.literal('by-the-mark/plan@1') });

export function firstFault(error: z.ZodError): string {
  const issue = error.issues[0];
  return issue === undefined ? 'not understood' : `${issue.path.map(String).join('.')}: ${issue.message}`;
}
