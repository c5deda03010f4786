/** What stands before the routes: who asks, in which method, with what kind of body. */
import type { Request, RequestHandler, Response, Router } from 'express';
import type { Holder } from '../access/access.ts';
import { RIGHTS, type Rights } from '../access/rights.ts';
import type { Door } from '../admission.ts';
import { answerFault, fault } from '../fault.ts';

/** Lets holders of a key pass; the holder stands in `res.locals` for those behind. */
export function requireKey(door: Door): RequestHandler {
  return (req, res, next) => {
    const admission = door.admit(req);
    if (!admission.ok) return answerFault(res, admission.fault);
    res.locals.holder = admission.holder;
    next();
  };
}

export const holderOf = (res: Response): Holder => res.locals.holder as Holder;
export const rightsOf = (res: Response): Rights => RIGHTS[holderOf(res).role];

export function requireRight(may: (rights: Rights) => boolean): RequestHandler {
  return (_req, res, next) => {
    if (may(rightsOf(res))) next();
    else answerFault(res, fault('not-allowed', `a ${holderOf(res).role} key does not open this address`));
  };
}

type Method = 'get' | 'post' | 'delete';
/** One address with its methods; every other method is answered with 405 and those that there are. */
export function address(router: Router, path: string, handlers: Partial<Record<Method, RequestHandler[]>>): void {
  const route = router.route(path);
  const methods = Object.keys(handlers) as Method[];
  for (const method of methods) route[method](...(handlers[method] ?? []));
  const allowed = methods.flatMap((method) => (method === 'get' ? ['GET', 'HEAD'] : [method.toUpperCase()])).join(', ');
  route.all((req: Request, res: Response) => {
    res.setHeader('Allow', allowed);
    answerFault(res, fault('wrong-method', `${req.method} is not for this address: use ${allowed}`));
  });
}

/** A body must say that it is JSON: a form of another site cannot. No body at all is no offence. */
export const jsonOnly: RequestHandler = (req, res, next) => {
  const hasBody = req.headers['transfer-encoding'] !== undefined || Number(req.headers['content-length'] ?? 0) > 0;
  if (!hasBody || req.is('application/json') !== false) return next();
  answerFault(res, fault('json-only', 'send JSON, with Content-Type: application/json'));
};
