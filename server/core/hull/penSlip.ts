/**
 * What slip of the pen would explain a figure of the table, if one would. Common practice, no source: these are the slips that turn up
 * when a table is copied: a figure misread, two changed about, one dropped or written twice, the point misplaced; in feet, inches and
 * eighths one of the three misread, or a foot taken for inches.
 */

interface Slip {
  readonly what: string;
  readonly mm: number;
}

/** `text` as it stands in the table, worth `foundMm`; a slip explains it if what was meant lies within `withinMm` of `fairMm`. */
export function penSlip(text: string, foundMm: number, fairMm: number, withinMm: number): string | undefined {
  const slips = /^-?\d+-\d+-\d+/.test(text.trim()) ? feetSlips(foundMm, fairMm) : figureSlips(text.trim(), foundMm);
  return slips
    .filter(({ mm }) => Math.abs(mm - fairMm) <= withinMm)
    .sort((a, b) => Math.abs(a.mm - fairMm) - Math.abs(b.mm - fairMm))[0]?.what;
}

const EIGHTH_MM = 3.175;
const INCH_MM = 25.4;
const FOOT_MM = 304.8;

function feetSlips(foundMm: number, fairMm: number): readonly Slip[] {
  const sign = Math.sign(fairMm - foundMm);
  const feet = Array.from({ length: 9 }, (_, i) => ({
    what: 'the feet are wrong',
    mm: foundMm + sign * (i + 1) * FOOT_MM,
  }));
  const inches = Array.from({ length: 11 }, (_, i) => ({
    what: 'the inches are wrong',
    mm: foundMm + sign * (i + 1) * INCH_MM,
  }));
  const eighths = Array.from({ length: 7 }, (_, i) => ({
    what: 'the eighths are wrong',
    mm: foundMm + sign * (i + 1) * EIGHTH_MM,
  }));
  return [...feet, ...inches, ...eighths];
}

function figureSlips(text: string, foundMm: number): readonly Slip[] {
  const number = /\d+(\.\d+)?/.exec(text)?.[0];
  const size = Number(number);
  if (number === undefined || size === 0) return [];
  const unit = foundMm / size;
  const slips: Slip[] = [];
  const add = (what: string, figures: string): void => {
    const mm = Number(figures) * unit;
    if (Number.isFinite(mm)) slips.push({ what, mm });
  };
  for (let i = 0; i < number.length; i++) {
    if (number[i] === '.') continue;
    const [before, after] = [number.slice(0, i), number.slice(i + 1)];
    for (const figure of '0123456789') {
      add('one figure is wrong', `${before}${figure}${after}`);
      add('a figure is missing', `${before}${figure}${number.slice(i)}`);
    }
    add('a figure too many', `${before}${after}`);
    const next = number[i + 1];
    if (next !== undefined && next !== '.')
      add('two figures changed places', `${before}${next}${number[i]}${number.slice(i + 2)}`);
  }
  for (const figure of '0123456789') add('a figure is missing', `${number}${figure}`);
  for (const times of [0.1, 10, 0.01, 100]) slips.push({ what: 'the point is misplaced', mm: foundMm * times });
  return slips;
}
