/** The lines of the hull that a wide table has rows for, by what the yard calls them. */
import type { ProblemCode } from '../../core/errors.ts';
import { readLengthCell, type Units } from '../length/parseLength.ts';

export type Kind = 'half-breadth' | 'height';

export interface HullLine {
  readonly kind: 'waterline' | 'buttock' | 'sheer' | 'keel' | 'rabbet' | 'knuckle';
  /** As it is told; also what tells it from others. */
  readonly name: string;
  /** The height of a waterline, the distance out of a buttock; 0 for others. */
  readonly levelMm: number;
  /** As it is written; '' for others. */
  readonly level: string;
}

/** Which figures a title speaks of, if it says so. */
export function kindIn(title: string): Kind | undefined {
  if (/half[\s-]*breadth|half[\s-]*beam|\bhb\b/i.test(title)) return 'half-breadth';
  return /height|above\s+base|\bht\b/i.test(title) ? 'height' : undefined;
}

/** A title without its "half-breadth" or "height". */
export const withoutKind = (title: string): string =>
  title
    .replace(/half[\s-]*breadths?|half[\s-]*beams?|heights?|above\s+base|[(),:=@]|\bat\b/gi, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** A waterline or a buttock: its number or letter, if it has one beside its level, and its level. */
const LEVELS = [
  ['waterline', /^(?:w\.?\s*l\.?|water[\s-]*line)(?=[\s\d.]|$)\.?\s*(.*)$/i],
  ['buttock', /^(?:butt(?:ock)?s?\.?|b\.?)(?=[\s\d]|$)\s*(.*)$/i],
] as const;
/** "1 2-0-0", "A 24 in": a name before the level. */
const NAMED_LEVEL = /^(?:no\.?\s*)?[\da-z]{1,2}\s+(?=\d)(?!\d+\/\d)/i;
const NAMED = [
  ['sheer', /sheer|deck|gunwale/i],
  ['rabbet', /rabbet|rebate/i],
  ['knuckle', /chine|knuckle/i],
  ['keel', /keel|profile|base|bottom/i],
] as const;

/** The line that a row's title names, or what is wrong with the title. */
export function hullLine(
  title: string,
  units: Units,
): HullLine | { readonly code: ProblemCode; readonly wanted: string } {
  const plain = withoutKind(title);
  for (const [kind, pattern] of LEVELS) {
    const written = pattern.exec(plain)?.[1]?.trim();
    if (written === undefined) continue;
    const level = written.replace(NAMED_LEVEL, '');
    const reading = readLengthCell(level, units);
    const what = kind === 'waterline' ? 'the height of the waterline' : 'how far out the buttock lies';
    if (reading.mm === undefined) return { code: reading.code, wanted: `${what}: ${reading.wanted}` };
    return { kind, name: `${kind} ${level}`, levelMm: reading.mm, level };
  }
  if (/diag/i.test(plain))
    return {
      code: 'unknown-name',
      wanted: 'no diagonals: leave these rows out, waterlines and buttocks give the shape',
    };
  const named = NAMED.find(([, pattern]) => pattern.test(plain));
  if (named === undefined)
    return {
      code: 'unknown-name',
      wanted: 'x, a waterline ("WL 2-0-0"), a buttock ("Buttock 1-0-0"), sheer, rabbet, keel or knuckle',
    };
  const [kind] = named;
  return { kind, name: kind === 'knuckle' ? plain.toLowerCase() : kind, levelMm: 0, level: '' };
}
