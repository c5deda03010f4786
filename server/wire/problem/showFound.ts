/** What stands in the input, as one safe line of text: shortened, control and direction marks written as escapes. */
import { withEscapes } from './hidden.ts';

const SHOWN_CHARS = 60;

/** Any value in a few words. Looks one level deep only, so that no nesting is too deep for it. */
export function showFound(value: unknown): string {
  switch (typeof value) {
    case 'undefined':
      return 'nothing';
    case 'string':
      return quote(value);
    case 'number':
    case 'bigint':
    case 'boolean':
      return `${value}`;
    case 'object':
      if (value === null) return 'null';
      if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`;
      return showKeys(Object.keys(value));
    default:
      return `a ${typeof value}`;
  }
}

function showKeys(keys: readonly string[]): string {
  if (keys.length === 0) return 'an empty object';
  const shown = keys.slice(0, 3).map((key) => quote(key, 20));
  return `an object with ${shown.join(', ')}${keys.length > 3 ? ` and ${keys.length - 3} more` : ''}`;
}

/** Text in quotation marks. JSON.stringify leaves C1 controls and bidirectional marks as they are; a terminal would act on them. */
export function quote(text: string, atMostChars = SHOWN_CHARS): string {
  const shown = withEscapes(JSON.stringify(text.slice(0, atMostChars)));
  return text.length > atMostChars ? `${shown.slice(0, -1)}..." (${text.length} characters)` : shown;
}

/** A file's or a field's name as it stands in a place: plain where it is plain, quoted where it is not. */
export const showName = (name: string): string =>
  name.length <= 100 && /^[\p{L}\p{N}_$.()/[\]-](?:[\p{L}\p{N}_$.()/[\] -]*[\p{L}\p{N}_$.()/[\]-])?$/u.test(name)
    ? name
    : quote(name, 40);
