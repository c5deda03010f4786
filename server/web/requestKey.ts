import type { IncomingMessage } from 'node:http';

/** The `__Host-` prefix makes the browser insist on Secure, this host only, and the whole path. */
export const KEY_COOKIE = '__Host-by-the-mark-key';

/** Where a key may stand: `?key=`, `Authorization: Bearer`, or the cookie that a page was given. The first found counts. */
export function requestKey(req: IncomingMessage): string | undefined {
  const query = queryOf(req).get('key');
  if (query !== null) return query;
  const bearer = /^Bearer +(\S+) *$/i.exec(req.headers.authorization ?? '')?.[1];
  if (bearer !== undefined) return bearer;
  return cookieOf(req, KEY_COOKIE);
}

/** The query of a request's address; empty if the address cannot be understood. */
export function queryOf(req: IncomingMessage): URLSearchParams {
  const at = req.url?.indexOf('?') ?? -1;
  return new URLSearchParams(at === -1 ? '' : req.url?.slice(at + 1));
}

/** The path of a request's address as it was sent, without its query. */
export const pathOf = (req: IncomingMessage): string => (req.url ?? '').split('?', 1)[0] ?? '';

function cookieOf(req: IncomingMessage, name: string): string | undefined {
  for (const pair of (req.headers.cookie ?? '').split(';')) {
    const [key, value] = pair.trim().split('=', 2);
    if (key === name) return value;
  }
  return undefined;
}
