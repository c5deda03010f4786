/** Which keys mean what. A USB pedal is a keyboard; which keys it types differs, so that the person can teach them. */
import type { PedalDuty } from '../../../server/core/pedal/footKeptDown.ts';
import { recall, remember } from '../page/deviceMemory.ts';

/** Keys by `KeyboardEvent.code`: the key's place, whatever letter the keyboard's language puts on it. */
export type PedalKeys = Readonly<Record<PedalDuty, readonly string[]>>;

export const DEFAULT_KEYS: PedalKeys = {
  press: ['Space', 'PageDown', 'Enter', 'NumpadEnter'],
  again: ['KeyA'],
  back: ['KeyB', 'PageUp'],
  resume: ['KeyR'],
  stop: ['Escape'],
};

export const DUTIES: readonly PedalDuty[] = ['press', 'again', 'back', 'resume', 'stop'];

export function dutyOf(keys: PedalKeys, code: string): PedalDuty | undefined {
  return DUTIES.find((duty) => keys[duty].includes(code));
}

/** The key for this duty and no other. Escape always stays a stop. */
export function teach(keys: PedalKeys, duty: PedalDuty, code: string): PedalKeys {
  if (code === 'Escape') return keys;
  const others = Object.fromEntries(DUTIES.map((each) => [each, keys[each].filter((known) => known !== code)]));
  const kept = { ...keys, ...others };
  return { ...kept, [duty]: [...kept[duty], code] };
}

export function forgetKey(keys: PedalKeys, duty: PedalDuty, code: string): PedalKeys {
  if (code === 'Escape') return keys;
  return { ...keys, [duty]: keys[duty].filter((known) => known !== code) };
}

const isKeys = (value: unknown): value is PedalKeys =>
  typeof value === 'object' &&
  value !== null &&
  DUTIES.every((duty) => {
    const codes = (value as Record<string, unknown>)[duty];
    return Array.isArray(codes) && codes.every((code) => typeof code === 'string');
  });

export function recallKeys(): PedalKeys {
  const known = recall('pedal-keys', isKeys) ?? DEFAULT_KEYS;
  return known.stop.includes('Escape') ? known : { ...known, stop: [...known.stop, 'Escape'] };
}

export const rememberKeys = (keys: PedalKeys): void => remember('pedal-keys', keys);

/** A key's place in words that a person finds on a keyboard. */
export function keyName(code: string): string {
  const named = NAMES[code];
  if (named !== undefined) return named;
  return code.replace(/^Key|^Digit/, '').replace(/([a-z])([A-Z0-9])/g, '$1 $2');
}
const NAMES: Readonly<Record<string, string>> = {
  Space: 'Space bar',
  PageDown: 'Page down',
  PageUp: 'Page up',
  NumpadEnter: 'Enter on the number pad',
  ArrowRight: 'Arrow right',
  ArrowLeft: 'Arrow left',
};
