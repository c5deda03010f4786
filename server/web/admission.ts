/** The one door: every request, page or socket, is looked at here before anything else is done with it. */
import type { IncomingMessage } from 'node:http';
import type { Access, Holder } from './access/access.ts';
import { hostIsHere, originIsHere } from './askedHost.ts';
import { type Fault, fault } from './fault.ts';
import { requestKey } from './requestKey.ts';

export interface Door {
  /** Null if Host and Origin are in order. `visit`: a plain visit to a page, which any link may lead to. */
  screen(req: IncomingMessage, visit?: boolean): Fault | null;
  admit(
    req: IncomingMessage,
  ): { readonly ok: true; readonly holder: Holder } | { readonly ok: false; readonly fault: Fault };
}

const KEY_MESSAGES = {
  'key-needed': 'this needs a key: open the console address that the server printed, or scan the code of this device',
  'key-wrong': 'this key is not known here: it may have been revoked, ask for a new code at the console',
  'too-many-tries': 'too many wrong keys from this address: wait a minute',
} as const;

export function createDoor(access: Access, port: () => number): Door {
  const secure = access.tls !== null;
  return {
    screen(req, visit = false) {
      const { host, origin } = req.headers;
      const site = req.headers['sec-fetch-site'];
      if (!hostIsHere(host, { secure, port: port(), names: access.hostNames() }))
        return fault('wrong-host', `this server does not go by the name ${shown(host)}`);
      const siteSeen = visit || typeof site !== 'string' ? undefined : site;
      if (!originIsHere({ host, origin, site: siteSeen }, secure))
        return fault('wrong-origin', `another site may not ask this server: ${shown(origin ?? siteSeen)}`);
      return null;
    },
    admit(req) {
      const admission = access.admit(requestKey(req), req.socket.remoteAddress ?? '');
      if (admission.ok) return admission;
      return { ok: false, fault: fault(admission.code, KEY_MESSAGES[admission.code]) };
    },
  };
}

const shown = (text: string | undefined): string =>
  text === undefined ? '(none)' : JSON.stringify(text.length > 80 ? `${text.slice(0, 77)}...` : text);
