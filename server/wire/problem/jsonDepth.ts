/** Far deeper than any job; a body that is nested a hundred thousand deep would break whoever walks through it. */
export const DEPTH_LIMIT = 64;

const [QUOTE, ESCAPE] = [0x22, 0x5c];
const OPENING: ReadonlySet<number> = new Set([0x5b, 0x7b]);
const CLOSING: ReadonlySet<number> = new Set([0x5d, 0x7d]);

/** True if lists and objects are nested deeper than the limit. Looks at the bytes only; the text need not be JSON. */
export function isTooDeep(body: Uint8Array, limit = DEPTH_LIMIT): boolean {
  let depth = 0;
  for (let at = 0; at < body.length; at += 1) {
    const byte = body[at] ?? 0;
    if (byte === QUOTE) at = endOfString(body, at);
    else if (OPENING.has(byte)) {
      depth += 1;
      if (depth > limit) return true;
    } else if (CLOSING.has(byte)) depth -= 1;
  }
  return false;
}

/** Where the string ends that begins at `start`; tables are long strings, so that this finds the next quotation mark fast. */
function endOfString(body: Uint8Array, start: number): number {
  for (let at = body.indexOf(QUOTE, start + 1); at !== -1; at = body.indexOf(QUOTE, at + 1)) {
    let escapes = 0;
    while (body[at - 1 - escapes] === ESCAPE) escapes += 1;
    if (escapes % 2 === 0) return at;
  }
  return body.length;
}
