/**
 * The text in a mark's printed code, as a hand scanner types it: `BTM`, three letters for the strip, the mark, a check letter,
 * for instance `BTMKDR7H`. Digits alone, as on goods, are never taken for a mark; a strip of another frame is noticed by its
 * letters; a slip of the pen or the scanner by the check letter.
 */
import type { Plan } from '../../core/plan/plan.ts';

/** Letters that look and sound unlike each other and lie on the same keys of most keyboards; sixteen, so each is 4 bits. */
const LETTERS = 'BCDFGHJKLNPRSTVX';
const CODE = new RegExp(`^BTM([${LETTERS}]{3})([1-9][0-9]{0,3})([${LETTERS}])$`);

type MarkCode =
  | { readonly ok: true; readonly strip: string; readonly mark: number }
  /** `not-a-mark`: some other code. `misread`: a mark's code, but not read or typed right. */
  | { readonly ok: false; readonly reason: 'not-a-mark' | 'misread' };

/** What the strip of a plan is known by: the frame, and where its marks lie. */
export type StripOf = Pick<Plan, 'title' | 'frame'> & {
  readonly marks: readonly Pick<Plan['marks'][number], 'mark' | 'stockMm' | 'callDeg'>[];
};

/** Three letters, the same for the same frame, marks and bevels; two strips share them once in 4096. */
export function stripLetters({ title, frame, marks }: StripOf): string {
  const places = marks.map(({ mark, stockMm, callDeg }) => `${mark}:${stockMm.toFixed(1)}:${callDeg.toFixed(2)}`);
  const hash = fnv1a([title, frame.label, frame.side, ...places].join('\n'));
  return [8, 4, 0].map((shift) => letter(hash >>> shift)).join('');
}

/** The text of the code of one mark. */
export function markCodeText(plan: StripOf, mark: number): string {
  const body = `${stripLetters(plan)}${mark}`;
  return `BTM${body}${checkLetter(body)}`;
}

/** Reads what a scanner or a person typed; spaces, hyphens and lower case are let pass. Never throws. */
export function parseMarkCode(typed: string): MarkCode {
  const text = typed.replace(/[\s-]/g, '').toUpperCase();
  const [, strip, digits, check] = CODE.exec(text) ?? [];
  if (strip === undefined || digits === undefined)
    return { ok: false, reason: text.startsWith('BTM') ? 'misread' : 'not-a-mark' };
  if (checkLetter(`${strip}${digits}`) !== check) return { ok: false, reason: 'misread' };
  return { ok: true, strip, mark: Number(digits) };
}

const letter = (bits: number): string => LETTERS.charAt(bits & 15);
const checkLetter = (body: string): string => {
  const hash = fnv1a(body);
  return letter(hash ^ (hash >>> 4) ^ (hash >>> 8) ^ (hash >>> 12));
};

/** FNV-1a, 32 bits, over UTF-16 units; its offset basis and prime are those of the FNV draft (Fowler, Noll, Vo), from memory. */
function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return hash >>> 0;
}
