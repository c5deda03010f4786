/** The bodies of requests that may be long, by name: read where it holds up nobody, each by the parser of its request. */

import { parseKeepPhrase } from '../kept/voices.ts';
import { DEPTH_LIMIT, isTooDeep } from '../problem/jsonDepth.ts';
import { type ParsedRequest, parsePaperRequest, parsePlanRequest, parseRunRequest } from './requests.ts';
import { parseMeasuredRequest, parseSaveRequest, parseTrialRequest } from './sawnRequests.ts';

export const BODIES = {
  plan: parsePlanRequest,
  paper: parsePaperRequest,
  run: parseRunRequest,
  save: parseSaveRequest,
  trial: parseTrialRequest,
  measured: parseMeasuredRequest,
  phrase: parseKeepPhrase,
} as const;
export type BodyName = keyof typeof BODIES;
export type BodyOf<N extends BodyName> = ReturnType<(typeof BODIES)[N]>;

/** The JSON of a body, UTF-8; no bytes are an empty object. */
export function jsonOfBody(bytes: Uint8Array): ParsedRequest<unknown> {
  if (bytes.length === 0) return { ok: true, value: {} };
  if (isTooDeep(bytes))
    return refusal('bad-request', `lists and objects in a body are nested at most ${DEPTH_LIMIT} deep`);
  try {
    const value: unknown = JSON.parse(new TextDecoder().decode(bytes));
    if (typeof value === 'object' && value !== null) return { ok: true, value };
  } catch {
    // Told below.
  }
  return refusal('not-json', 'the body is not one JSON object');
}

/** A whole body, as its request. The job in it stays text, which is handed on at no cost: `jobGiven` reads it. Never throws. */
export function readBody(name: BodyName, bytes: Uint8Array): BodyOf<BodyName> {
  const json = jsonOfBody(bytes);
  if (!json.ok) return json;
  const parsed = BODIES[name](json.value);
  if (!parsed.ok || !('job' in parsed.value)) return parsed;
  return { ok: true, value: { ...parsed.value, job: JSON.stringify(parsed.value.job) } };
}

const refusal = (code: string, message: string): ParsedRequest<never> => ({ ok: false, error: { code, message } });
