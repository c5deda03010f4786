/** Inches in thirty-seconds, as a fraction or as feet-inches-eighths. `parseLength` of the wire reads both. */
export const PARTS_OF_INCH = 32;

/** Whole thirty-seconds as `50 5/8`; no minus before a nought. */
export function asFraction(parts: number): string {
  const [sign, size] = parted(parts);
  const [whole, over] = [Math.floor(size / PARTS_OF_INCH), size % PARTS_OF_INCH];
  if (over === 0) return `${sign}${whole}`;
  return `${sign}${whole === 0 ? '' : `${whole} `}${shortened(over)}`;
}

const UNITS = String.raw`(?:mm|in|ft|m|s)(?:\/min)?(?!\w)`;

/**
 * The words that lines are made of. A whole number and its fraction are one: a line that ended between them would say 7 for 7 7/8. So
 * are a number and its unit.
 */
export const unbrokenWords = (text: string): readonly string[] =>
  text.split(new RegExp(String.raw`(?<!\d(?= (?:\d+\/\d|${UNITS}))) `));

/** A figure of several parts, which a browser would part at a line's end: `7 7/8 in`, `0-0-5++`, `25 mm`. With the flag g, for `split` it is one group. */
export const FIGURE_OF_PARTS = new RegExp(
  String.raw`((?:\d+ )?\d+\/\d+(?: in\b)?|\d+-\d+-\d+(?:\+-|\+\+|\+)?|\d[\d.]* ${UNITS})`,
  'g',
);

/** What the signs after the eighths add, in thirty-seconds; source: the published notation, see the outside tests. */
const SIGNS = ['', '+-', '+', '++'];

/** Whole thirty-seconds as `4-2-5+`. */
export function asFeetInchesEighths(parts: number): string {
  const [sign, size] = parted(parts);
  const inches = Math.floor(size / PARTS_OF_INCH);
  const rest = size % PARTS_OF_INCH;
  return `${sign}${Math.floor(inches / 12)}-${inches % 12}-${Math.floor(rest / 4)}${SIGNS[rest % 4]}`;
}

const parted = (parts: number): readonly [sign: '' | '-', size: number] => [parts < 0 ? '-' : '', Math.abs(parts)];

function shortened(over: number): string {
  let [above, below] = [over, PARTS_OF_INCH];
  while (above % 2 === 0) [above, below] = [above / 2, below / 2];
  return `${above}/${below}`;
}
