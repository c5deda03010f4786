const TO_NINETEEN = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
] as const;
const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'] as const;

/** A whole number from 0 to 99 as English writes it: "zero", "twelve", "thirty-four". */
export function cardinal(whole: number): string {
  const small = TO_NINETEEN[whole];
  if (small !== undefined) return small;
  const ten = TENS[Math.floor(whole / 10) - 2];
  if (ten === undefined || !Number.isInteger(whole)) throw new RangeError(`no words for ${whole}: wanted 0 to 99`);
  return whole % 10 === 0 ? ten : `${ten}-${cardinal(whole % 10)}`;
}

/** The words that numbers are made of. */
export const NUMERALS: readonly string[] = [...TO_NINETEEN, ...TENS];

/** Every digit by itself, as numbers are read out by radio: "12" is "one two". */
export const digitByDigit = (digits: string): string => [...digits].map((digit) => cardinal(Number(digit))).join(' ');
