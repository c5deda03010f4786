/** What is asked about a piece that was sawn, or a trial that is to be: parsed at the door. */
import { z } from 'zod';
import { USUAL_ERROR_DEG } from '../../core/sawn/savePiece.ts';
import { describeShape } from '../problem/describeShape.ts';
import { TABLE_LIMIT_CHARS } from '../table/readTable.ts';
import { checkCarried, type ParsedRequest, type PlanRequest } from './requests.ts';

export interface SaveRequest extends PlanRequest {
  /** The text of a table `along,bevel`. */
  readonly measured: string;
  readonly half: 'outer' | 'inner';
  readonly errorDeg: number;
  /** Lengths as in a job: a number in its units, or a string with its own. */
  readonly from?: number | string;
  readonly to?: number | string;
  readonly thinnestEdge?: number | string;
}
export interface TrialRequest extends PlanRequest {
  readonly whole: boolean;
}
export interface TrialMeasuredRequest extends TrialRequest {
  readonly measured: string;
  readonly errorDeg: number;
  /** At which the trial was fed; the crew's own where it is left out. */
  readonly feedMPerMin?: number;
}

const carried = { job: z.unknown().optional(), files: z.unknown().optional() };
const measured = z.string().max(TABLE_LIMIT_CHARS);
const errorDeg = z.number().min(0.001).max(10).default(USUAL_ERROR_DEG);
const length = z.union([z.number(), z.string().max(40)]).optional();
const saveRequest = z.strictObject({
  ...carried,
  measured,
  half: z.enum(['outer', 'inner']).default('outer'),
  errorDeg,
  from: length,
  to: length,
  thinnestEdge: length,
});
const trialRequest = z.strictObject({ ...carried, whole: z.boolean().default(false) });
const measuredRequest = z.strictObject({
  ...carried,
  whole: z.boolean().default(false),
  measured,
  errorDeg,
  feedMPerMin: z.number().min(0.01).max(100).optional(),
});

/** `POST /api/save`. */
export const parseSaveRequest = (body: unknown): ParsedRequest<SaveRequest> =>
  parsed(saveRequest, body, ({ measured, half, errorDeg, from, to, thinnestEdge }) => ({
    measured,
    half,
    errorDeg,
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
    ...(thinnestEdge === undefined ? {} : { thinnestEdge }),
  }));

/** `POST /api/trial`. */
export const parseTrialRequest = (body: unknown): ParsedRequest<TrialRequest> =>
  parsed(trialRequest, body, ({ whole }) => ({ whole }));

/** `POST /api/trial/measured`. */
export const parseMeasuredRequest = (body: unknown): ParsedRequest<TrialMeasuredRequest> =>
  parsed(measuredRequest, body, ({ whole, measured, errorDeg, feedMPerMin }) => ({
    whole,
    measured,
    errorDeg,
    ...(feedMPerMin === undefined ? {} : { feedMPerMin }),
  }));

interface Carried {
  readonly job?: unknown;
  readonly files?: unknown;
}

function parsed<S extends z.ZodType<Carried>, T>(
  schema: S,
  body: unknown,
  take: (data: z.infer<S>) => T,
): ParsedRequest<PlanRequest & T> {
  const read = schema.safeParse(body);
  if (!read.success) return { ok: false, error: describeShape(read.error, body) };
  const checked = checkCarried(read.data);
  return checked.ok ? { ok: true, value: { ...checked.value, ...take(read.data) } } : checked;
}
