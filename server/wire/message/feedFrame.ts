/** One frame of the raw `/feed` socket, also sent by the pages. */
import { z } from 'zod';
import { MOST_MARKS } from '../../core/job.ts';
import { describeShape } from '../problem/describeShape.ts';
import type { WireError } from '../problem/wireError.ts';

const id = z.string().max(64).optional();
/** A reading that is older than this is news no more. */
const ageMs = z.number().min(0).max(60_000).optional();
const finite = z.number().min(-1e7).max(1e7);
const frame = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('pedal'),
    gesture: z.enum(['again', 'back', 'stop', 'down', 'up']).optional(),
    id,
    ageMs,
  }),
  z.strictObject({
    kind: z.literal('mark'),
    mark: z.int().min(1).max(MOST_MARKS),
    offsetMm: finite.optional(),
    id,
    ageMs,
  }),
  z.strictObject({ kind: z.literal('travel'), mm: finite, id, ageMs }),
  z.strictObject({ kind: z.literal('tilt'), deg: z.number().min(-180).max(180), id, ageMs }),
]);
type Parsed = z.infer<typeof frame>;
type PedalFrame = Extract<Parsed, { kind: 'pedal' }>;
type FootMove = 'down' | 'up';
/** A foot on its way: what it means, the program makes out. */
export type FootFrame = PedalFrame & { readonly gesture: FootMove };
/** What means something by itself. */
export type ReadingFrame =
  | Exclude<Parsed, PedalFrame>
  | (Omit<PedalFrame, 'gesture'> & { readonly gesture?: Exclude<PedalFrame['gesture'], FootMove> });
export type FeedFrame = FootFrame | ReadingFrame;
export const isFootFrame = (frame: FeedFrame): frame is FootFrame =>
  frame.kind === 'pedal' && (frame.gesture === 'down' || frame.gesture === 'up');

/** The longest text that is looked at; a frame is some 60 characters. */
export const FRAME_LIMIT_CHARS = 1024;

export type ParsedFrame =
  | { readonly ok: true; readonly frame: FeedFrame }
  | { readonly ok: false; readonly id?: string; readonly error: WireError };

/** Parses the text of one frame. Never throws; an `id` that can be read is given back with the error. */
export function parseFeedFrame(text: string): ParsedFrame {
  if (text.length > FRAME_LIMIT_CHARS)
    return {
      ok: false,
      error: {
        code: 'too-large',
        message: `a frame has at most ${FRAME_LIMIT_CHARS} characters, found ${text.length}`,
      },
    };
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return {
      ok: false,
      error: { code: 'not-json', message: 'a frame is one JSON object, for instance {"kind":"pedal"}' },
    };
  }
  return checkFeedFrame(value);
}

/** The same for a value that has already been taken apart. */
export function checkFeedFrame(value: unknown): ParsedFrame {
  const parsed = frame.safeParse(value);
  if (parsed.success) return { ok: true, frame: parsed.data };
  const foundId = id.safeParse((value as { id?: unknown } | null)?.id);
  const error = describeShape(parsed.error, value);
  return foundId.success && foundId.data !== undefined ? { ok: false, id: foundId.data, error } : { ok: false, error };
}
