/** The crew: people of whom something was learnt and who agreed that it is kept. */
import { z } from 'zod';
import type { HandEstimate } from '../../core/hand/learn/estimate.ts';
import type { LearntHand } from '../../core/hand/learn/learnHand.ts';
import { describeShape } from '../problem/describeShape.ts';
import { isOneLine } from '../problem/hidden.ts';
import type { ParsedRequest } from '../request/requests.ts';

/** What one run told of one person, as it is kept. */
export interface KeptHand {
  readonly run: string;
  readonly name: string;
  readonly keptAtMs: number;
  /** Null where the run did not tell it. */
  readonly reactionS: HandEstimate | null;
  readonly turnsPerS: HandEstimate | null;
}

/** One of the crew, all kept runs taken together. */
export interface CrewMember {
  readonly name: string;
  /** The figures to plan by, which nine in ten turns keep to; null where not learnt. */
  readonly reactionS: number | null;
  readonly turnsPerS: number | null;
  /** What was found: the middle, its standard error, the spread and on how many turns it rests. */
  readonly found: { readonly reactionS: HandEstimate | null; readonly turnsPerS: HandEstimate | null };
  /** Oldest first. */
  readonly runs: readonly string[];
  /** When the last of them was kept. */
  readonly keptAtMs: number;
}

/** `GET /api/runs/ID/hand`. */
export interface HandOfRun extends LearntHand {
  /** What a plan would be made with. */
  readonly planned: { readonly reactionS: number | null; readonly turnsPerS: number | null };
  readonly isFinished: boolean;
  /** For whom it is kept; null: for nobody. */
  readonly keptFor: string | null;
}

export interface KeepRequest {
  readonly name: string;
  readonly run: string;
}

export const NAME_CHARS = 40;

/** As it is written and shown: one space between words, none around, accents in one way. Undefined where it is no name. */
export function crewName(text: string): string | undefined {
  const name = text.normalize('NFC').trim().replace(/\s+/gu, ' ');
  return isOneLine(name, NAME_CHARS) ? name : undefined;
}

/** Names that differ in capitals only are one person's. */
export const crewKey = (name: string): string => (crewName(name) ?? name).toLowerCase();

const keepRequest = z.strictObject({
  name: z
    .string()
    .max(1000)
    .transform((text, context) => {
      const name = crewName(text);
      if (name !== undefined) return name;
      context.addIssue({ code: 'custom', message: `expected a name or initials, 1 to ${NAME_CHARS} characters` });
      return z.NEVER;
    }),
  run: z.string().min(1).max(64),
});

/** `POST /api/crew`. Never throws, whatever it is given. */
export function parseKeepRequest(body: unknown): ParsedRequest<KeepRequest> {
  const parsed = keepRequest.safeParse(body ?? {});
  return parsed.success
    ? { ok: true, value: parsed.data }
    : { ok: false, error: describeShape(parsed.error, body ?? {}) };
}
