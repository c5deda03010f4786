const TO_NINETEEN = [
  'null',
  'eins',
  'zwei',
  'drei',
  'vier',
  'fünf',
  'sechs',
  'sieben',
  'acht',
  'neun',
  'zehn',
  'elf',
  'zwölf',
  'dreizehn',
  'vierzehn',
  'fünfzehn',
  'sechzehn',
  'siebzehn',
  'achtzehn',
  'neunzehn',
] as const;
const TENS = ['zwanzig', 'dreißig', 'vierzig', 'fünfzig', 'sechzig', 'siebzig', 'achtzig', 'neunzig'] as const;

/** A whole number from 0 to 99 as German writes it, units before tens: "null", "zwölf", "vierunddreißig". */
export function cardinal(whole: number): string {
  const small = TO_NINETEEN[whole];
  if (small !== undefined) return small;
  const ten = TENS[Math.floor(whole / 10) - 2];
  if (ten === undefined || !Number.isInteger(whole)) throw new RangeError(`no words for ${whole}: wanted 0 to 99`);
  return whole % 10 === 0 ? ten : `${joined(whole % 10)}und${ten}`;
}

/** As it stands before another part of the same word: "ein" in "einundzwanzig" and "eineinhalb". */
export const joined = (whole: number): string => (whole === 1 ? 'ein' : cardinal(whole));

/** Every digit by itself, the two as "zwo", which is not taken for "drei": "12" is "eins zwo". */
export const digitByDigit = (digits: string): string =>
  [...digits].map((digit) => (digit === '2' ? ZWO : cardinal(Number(digit)))).join(' ');

const ZWO = 'zwo';

/** The words that numbers are made of. */
export const NUMERALS: readonly string[] = [...TO_NINETEEN, ZWO, ...TENS];

const UNITS = [1, 2, 3, 4, 5, 6, 7, 8, 9].map(joined);
const WRITTEN = new RegExp(
  `^(?:(?:(${UNITS.join('|')})(und))?(${TENS.join('|')})|(${[...UNITS, ...TO_NINETEEN.slice(10)].join('|')}))(einhalb|einviertel|dreiviertel)?$`,
);

/** A written number taken apart as the voice takes it: "einundzwanzigeinhalb" is ein, und, zwanzig, einhalb. */
export function partsOfNumber(word: string): readonly string[] {
  const found = WRITTEN.exec(word);
  return found === null ? [word] : found.slice(1).filter((part) => part !== undefined);
}
