/** Bodies of requests: short ones are read here, long ones in a thread, and only where a long one can be meant. */
import express, { type Request, type RequestHandler } from 'express';
import { BODIES, type BodyName, type BodyOf, jsonOfBody } from '../../wire/request/bodies.ts';
import { BODY_LIMIT_BYTES } from '../../wire/request/requests.ts';
import { answerFault, fault, faultLike } from '../fault.ts';
import type { WebPorts } from '../webPorts.ts';

/** Read in a fraction of a millisecond. */
const SHORT_BYTES = 16_384;
/** More long ones at a time are an accident or an attack; each takes its memory. */
const LONG_AT_ONCE = 8;
/** A job with its tables, or a recording. */
const LONG = /^\/(?:plan|runs|save|trial|trial\/measured|paper\/[^/]+|voices\/[^/]+\/phrases)\/?$/;

/** What a long body stands as in `req.body` until `bodyOf` has it read. */
class LongBody {
  readonly bytes: Uint8Array;
  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }
}

/** Puts a short body's JSON into `req.body`, and a long one's bytes. */
export function bodies(): RequestHandler[] {
  // Not unpacked: a small packed body can be an enormous one.
  const raw = (limit: number): RequestHandler => express.raw({ type: () => true, limit, inflate: false });
  const [short, long] = [raw(SHORT_BYTES), raw(BODY_LIMIT_BYTES)];
  let atOnce = 0;
  const collect: RequestHandler = (req, res, next) => {
    if (!LONG.test(req.path)) {
      short(req, res, next);
      return;
    }
    const bytes = Number(req.headers['content-length'] ?? Number.POSITIVE_INFINITY);
    if (req.method !== 'POST' || bytes <= SHORT_BYTES) {
      long(req, res, next);
      return;
    }
    if (atOnce >= LONG_AT_ONCE) {
      res.setHeader('Connection', 'close');
      answerFault(res, fault('too-many', `at most ${LONG_AT_ONCE} long requests at a time: try again later`));
      return;
    }
    atOnce += 1;
    res.once('close', () => {
      atOnce -= 1;
    });
    long(req, res, next);
  };
  const read: RequestHandler = (req, res, next) => {
    const bytes: unknown = req.body;
    if (!(bytes instanceof Uint8Array)) return next();
    if (!/^(?:utf-8)?$/i.test(charsetOf(req))) return answerFault(res, fault('json-only', 'send JSON in UTF-8'));
    if (bytes.length > SHORT_BYTES) {
      req.body = new LongBody(bytes);
      return next();
    }
    const json = jsonOfBody(bytes);
    if (!json.ok) return answerFault(res, faultLike('bad-request', json.error));
    req.body = json.value;
    next();
  };
  return [collect, read];
}

const charsetOf = (req: Request): string =>
  /;\s*charset\s*=\s*"?([^";\s]*)/i.exec(req.headers['content-type'] ?? '')?.[1] ?? '';

/** The request that a body is, or what is wrong with it; a long one is read in the thread. */
export async function bodyOf<N extends BodyName>(
  { readBody }: Pick<WebPorts, 'readBody'>,
  name: N,
  req: Request,
): Promise<BodyOf<N>> {
  const body: unknown = req.body;
  return body instanceof LongBody ? readBody(name, body.bytes) : (BODIES[name](body) as BodyOf<N>);
}
