/** How figures are written on every page. The minus is the true one, so that it is as wide as a digit's bar. */
const decimals = (step: number): number => Math.min(3, (String(step).split('.')[1] ?? '').length);

/** A readout's figure, with the readout's own decimals: 12.5 on a half-degree readout, 12 on a whole one. */
export function readoutFigure(deg: number, readoutDeg: number): string {
  const shown = Math.round(deg / readoutDeg) * readoutDeg;
  return minus(shown.toFixed(Math.max(1, decimals(readoutDeg))));
}

export const degFigure = (deg: number, places = 2): string => minus(deg.toFixed(places));

/** Takes the sign off a zero and gives every other negative figure the true minus. */
function minus(figure: string): string {
  return Number(figure) === 0 ? figure.replace('-', '') : figure.replace('-', '\u2212');
}

const MM_PER_INCH = 25.4;
const EIGHTHS = ['', '1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'];

export interface Lengths {
  /** A short length, to a tenth of a millimetre or a hundredth of an inch. */
  fine(mm: number): string;
  /** Along the stock, to a millimetre or an eighth of an inch. */
  along(mm: number): string;
  feed(mPerMin: number): string;
  readonly unit: string;
}

const metric: Lengths = {
  unit: 'mm',
  fine: (mm) => minus(mm.toFixed(1)),
  along: (mm) => minus(mm.toFixed(0)),
  feed: (mPerMin) => `${mPerMin.toFixed(1)} m/min`,
};
const inches: Lengths = {
  unit: 'in',
  fine: (mm) => minus((mm / MM_PER_INCH).toFixed(2)),
  along(mm) {
    const eighths = Math.round((Math.abs(mm) / MM_PER_INCH) * 8);
    const whole = Math.floor(eighths / 8);
    const part = EIGHTHS[eighths % 8];
    const size = part === '' ? `${whole}` : whole === 0 ? `${part}` : `${whole} ${part}`;
    return mm < 0 && eighths > 0 ? `\u2212${size}` : size;
  },
  feed: (mPerMin) => `${(mPerMin / 0.3048).toFixed(1)} ft/min`,
};

export const lengthsIn = (units: 'mm' | 'in'): Lengths => (units === 'mm' ? metric : inches);

export function span(seconds: number): string {
  const whole = Math.round(seconds);
  const minutes = Math.floor(whole / 60);
  return minutes === 0 ? `${whole} s` : `${minutes} min ${String(whole % 60).padStart(2, '0')} s`;
}

export const clockTime = (atMs: number): string => {
  const at = new Date(atMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
};

export const dayAndTime = (atMs: number): string =>
  new Date(atMs).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
