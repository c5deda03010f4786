/**
 * What a figure of the table could have been meant to be, had the pen slipped. Common practice, no source: these are the slips that turn up
 * when a table is copied: a figure misread, two changed about, one dropped or written twice, the point misplaced; in feet, inches and
 * eighths one of the three misread, or a foot taken for inches.
 */

export interface PenSlip {
  readonly what: string;
  readonly mm: number;
}

/** What could have been meant by `text` as it stands in the table, worth `foundMm`. */
export function penSlips(text: string, foundMm: number): readonly PenSlip[] {
  return /^-?\d+-\d+-\d+/.test(text.trim()) ? feetSlips(foundMm) : figureSlips(text.trim(), foundMm);
}

const EIGHTH_MM = 3.175;
const INCH_MM = 25.4;
const FOOT_MM = 304.8;

function feetSlips(foundMm: number): readonly PenSlip[] {
  const parts = [
    ['the feet are wrong', FOOT_MM, 9],
    ['the inches are wrong', INCH_MM, 11],
    ['the eighths are wrong', EIGHTH_MM, 7],
  ] as const;
  return parts.flatMap(([what, partMm, most]) =>
    Array.from({ length: most }, (_, i) => (i + 1) * partMm).flatMap((byMm) => [
      { what, mm: foundMm + byMm },
      { what, mm: foundMm - byMm },
    ]),
  );
}

function figureSlips(text: string, foundMm: number): readonly PenSlip[] {
  const number = /\d+(\.\d+)?/.exec(text)?.[0];
  const size = Number(number);
  if (number === undefined || size === 0) return [];
  const unit = foundMm / size;
  const slips: PenSlip[] = [];
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
