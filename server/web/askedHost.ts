/**
 * Checks of Host and Origin. A page of a stranger's site that has had its own name pointed at 127.0.0.1 carries that name in
 * Host, and a page that calls across carries its own in Origin; neither may reach a run, not even on loopback.
 */

interface AskedOrigin {
  readonly host: string | undefined;
  readonly origin: string | undefined;
  /** What the browser says of where the request comes from (Sec-Fetch-Site). */
  readonly site: string | undefined;
}
interface Here {
  readonly secure: boolean;
  readonly port: number;
  /** Lower case, IPv6 without brackets. */
  readonly names: ReadonlySet<string>;
}

const HOST = /^(?:\[([0-9a-f:.]+)\]|([a-z0-9.-]+))(?::(\d{1,5}))?$/;

/** True if `host` names this server by one of its names and its own port. */
export function hostIsHere(host: string | undefined, { secure, port, names }: Here): boolean {
  const found = HOST.exec(host?.toLowerCase() ?? '');
  if (found === null) return false;
  const [, bracketed, plain, askedPort] = found;
  const name = bracketed ?? plain;
  const portAsked = askedPort === undefined ? (secure ? 443 : 80) : Number(askedPort);
  return name !== undefined && names.has(name) && portAsked === port;
}

/** True if there is no Origin (not a page, or a plain visit) or it is the very server that was asked. */
export function originIsHere({ host, origin, site }: AskedOrigin, secure: boolean): boolean {
  if (origin === undefined) return site === undefined || site === 'same-origin' || site === 'none';
  try {
    // Through URL on both sides, so that a default port left out is the same as one written.
    const here = new URL(`${secure ? 'https' : 'http'}://${host}`).origin;
    return new URL(origin).origin === here && origin.toLowerCase() !== 'null';
  } catch {
    return false;
  }
}
