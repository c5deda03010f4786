/** The bodies of the HTTP API, parsed at the door. The job inside is only carried here; `parseJob` looks at it. */
import { z } from 'zod';
import { MOST_MARKS } from '../../core/job.ts';
import { ROUTINES, type Routine, type RunMode, USUAL_ROUTINE } from '../../core/routine/routine.ts';
import { FILE_NAME_CHARS } from '../job/jobFile.ts';
import { isObject } from '../job/jobSection.ts';
import type { FeedChoice } from '../kept/journalLine.ts';
import { describeShape } from '../problem/describeShape.ts';
import { showFound, showName } from '../problem/showFound.ts';
import type { WireError } from '../problem/wireError.ts';
import { TABLE_LIMIT_CHARS } from '../table/readTable.ts';
import { despite } from './despite.ts';

/** A whole request: a job, its tables, and the escapes that JSON adds. The web room refuses longer ones unread. */
export const BODY_LIMIT_BYTES = 4_000_000;
const FILES_AT_MOST = 20;

/** A job file as it was given: read from JSON, or its text where that was too long to be read in passing. */
type JobGiven = Readonly<Record<string, unknown>> | string;

/** The job file itself; its text is one that was read before. */
export const jobGiven = (job: unknown): unknown => (typeof job === 'string' ? JSON.parse(job) : job);

export interface PlanRequest {
  readonly job: JobGiven;
  readonly files: Readonly<Record<string, string>>;
  /** For whom of the crew the plan is made. */
  readonly tiltHand?: string;
}
interface RunRequest extends PlanRequest {
  readonly mode: RunMode;
  readonly routine: Routine;
  readonly feed: FeedChoice;
  /** Who speaks; the embedded voice where it is left out. */
  readonly voice?: string;
  /** What the readout shows where the blade is square: every call is shifted by it. */
  readonly squareDeg?: number;
  /** Why the run is made although its plan forbids the cut, in a person's words: one line. */
  readonly despite?: string;
}
interface SquareRequest {
  readonly shownDeg: number;
}
interface AtBladeRequest {
  readonly mark: number;
}
interface SquareAnewRequest extends SquareRequest {
  /** For a run that was made before its plan could forbid it. */
  readonly despite?: string;
}
interface PaperRequest extends PlanRequest {
  /** The size, as it was written; which there are depends on the paper. */
  readonly paper?: string;
}
interface SoundRequest {
  readonly withoutSound: boolean;
}
export type ParsedRequest<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: WireError };

const carried = {
  job: z.unknown().optional(),
  files: z.unknown().optional(),
  tiltHand: z.string().min(1).max(64).optional(),
};
const planRequest = z.strictObject(carried);
const paperRequest = z.strictObject({ ...carried, paper: z.string().max(64).optional() });
/** More than this is no residual: then the readout is set. */
const MOST_SQUARE_DEG = 5;
const shownDeg = z.number().min(-MOST_SQUARE_DEG).max(MOST_SQUARE_DEG);
const runRequest = z.strictObject({
  ...carried,
  mode: z.enum(['pair', 'solo', 'rehearsal']),
  routine: z.enum(ROUTINES).default(USUAL_ROUTINE),
  voice: z.string().min(1).max(64).optional(),
  squareDeg: shownDeg.optional(),
  despite: despite.optional(),
  feed: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('external') }),
    z.strictObject({
      kind: z.literal('simulated'),
      mPerMin: z.number().min(0.01).max(100),
      seed: z.int().min(0).max(0xffff_ffff).default(1),
    }),
  ]),
});
const squareRequest = z.strictObject({ shownDeg });
const atBladeRequest = z.strictObject({ mark: z.int().min(0).max(MOST_MARKS) });
const squareAnewRequest = z.strictObject({ shownDeg, despite: despite.optional() });
const soundRequest = z.strictObject({ withoutSound: z.boolean().default(false) });

/** `POST /api/plan`. Never throws, whatever it is given. */
export function parsePlanRequest(body: unknown): ParsedRequest<PlanRequest> {
  const parsed = planRequest.safeParse(body);
  return parsed.success ? checkCarried(parsed.data) : { ok: false, error: describeShape(parsed.error, body) };
}

/** `POST /api/paper/NAME`. */
export function parsePaperRequest(body: unknown): ParsedRequest<PaperRequest> {
  const parsed = paperRequest.safeParse(body);
  if (!parsed.success) return { ok: false, error: describeShape(parsed.error, body) };
  const { paper } = parsed.data;
  const checked = checkCarried(parsed.data);
  return checked.ok && paper !== undefined ? { ok: true, value: { ...checked.value, paper } } : checked;
}

/** `POST /api/runs`. */
export function parseRunRequest(body: unknown): ParsedRequest<RunRequest> {
  const parsed = runRequest.safeParse(body);
  if (!parsed.success) return { ok: false, error: describeShape(parsed.error, body) };
  const { mode, routine, feed, voice, squareDeg, despite: words } = parsed.data;
  const checked = checkCarried(parsed.data);
  if (!checked.ok) return checked;
  const asked = {
    ...(voice === undefined ? {} : { voice }),
    ...(squareDeg === undefined ? {} : { squareDeg }),
    ...(words === undefined ? {} : { despite: words }),
  };
  return { ok: true, value: { ...checked.value, mode, routine, feed, ...asked } };
}

/** `POST /api/runs/ID/start` and `/resume`: no body at all is "with sound". */
export function parseSoundRequest(body: unknown): ParsedRequest<SoundRequest> {
  const parsed = soundRequest.safeParse(body ?? {});
  return parsed.success ? { ok: true, value: parsed.data } : { ok: false, error: describeShape(parsed.error, body) };
}

/** `POST /api/runs/ID/at-blade`. */
export function parseAtBladeRequest(body: unknown): ParsedRequest<AtBladeRequest> {
  const parsed = atBladeRequest.safeParse(body);
  return parsed.success ? { ok: true, value: parsed.data } : { ok: false, error: describeShape(parsed.error, body) };
}

/** `POST /api/runs/ID/square-anew`. */
export function parseSquareAnewRequest(body: unknown): ParsedRequest<SquareAnewRequest> {
  const parsed = squareAnewRequest.safeParse(body);
  if (!parsed.success) return { ok: false, error: describeShape(parsed.error, body) };
  const { shownDeg, despite: words } = parsed.data;
  return { ok: true, value: words === undefined ? { shownDeg } : { shownDeg, despite: words } };
}

/** `POST /api/runs/ID/square`. */
export function parseSquareRequest(body: unknown): ParsedRequest<SquareRequest> {
  const parsed = squareRequest.safeParse(body);
  return parsed.success ? { ok: true, value: parsed.data } : { ok: false, error: describeShape(parsed.error, body) };
}

interface Carried {
  readonly job?: unknown;
  readonly files?: unknown;
  readonly tiltHand?: string | undefined;
}
/** Checked by hand and not by a schema, which would gather a finding for each of a hundred thousand bad files. */
export function checkCarried({ job, files = {}, tiltHand }: Carried): ParsedRequest<PlanRequest> {
  if (!isObject(job)) return badShape('job', `expected the job as an object, found ${showFound(job)}`);
  if (!isObject(files)) return badShape('files', `expected an object of texts by file name, found ${showFound(files)}`);
  const names = Object.keys(files);
  if (names.length > FILES_AT_MOST) return tooLarge('files', `at most ${FILES_AT_MOST} files, found ${names.length}`);
  // Without a prototype, so that a file called `__proto__` is a file like any other.
  const texts: Record<string, string> = Object.create(null);
  for (const name of names) {
    const text = files[name];
    const path = `files.${showName(name)}`;
    if (name.length > FILE_NAME_CHARS) return tooLarge(path, `a name of at most ${FILE_NAME_CHARS} characters`);
    if (typeof text !== 'string') return badShape(path, `expected the text of the file, found ${showFound(text)}`);
    if (text.length > TABLE_LIMIT_CHARS)
      return tooLarge(path, `at most ${TABLE_LIMIT_CHARS} characters, found ${text.length}`);
    texts[name] = text;
  }
  return { ok: true, value: { job, files: texts, ...(tiltHand === undefined ? {} : { tiltHand }) } };
}

const refuse = (code: string, path: string, message: string): { ok: false; error: WireError } => ({
  ok: false,
  error: { code, message: `${path}: ${message}`, path },
});
const badShape = (path: string, message: string) => refuse('bad-shape', path, message);
const tooLarge = (path: string, message: string) => refuse('too-large', path, message);
