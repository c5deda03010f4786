/** Every bevel, tilt and error in degrees that people read. A figure is without the sign of degrees, a text with it. */
import { bareFigure, decimalsOf, fixedFigure, withPlus } from './decimals.ts';
import { toReadoutStep } from './rounding.ts';

/** For a column or a display. */
export const degFigure = (deg: number, decimals = 2): string => fixedFigure(deg, decimals);

/** The same with a plus: a bevel that may be standing or under, or an error. */
export const signedDegFigure = (deg: number, decimals = 2): string => withPlus(fixedFigure(deg, decimals));

/** What a bevel may be wrong by, beside it. */
export const errorFigure = (errorDeg: number): string => `±${fixedFigure(errorDeg, 2)}`;

/** What the readout shows at this figure, rounded to its step: 12.5 on a half-degree readout, 12.0 on a whole one. */
export const readoutFigure = (deg: number, readoutDeg: number): string =>
  inReadoutDecimals(toReadoutStep(deg, readoutDeg), readoutDeg);

/** A figure that may lie between two steps, or is on one already, with the readout's decimals; one at least. */
export const inReadoutDecimals = (deg: number, readoutDeg: number): string =>
  fixedFigure(deg, Math.max(1, decimalsOf(readoutDeg)));

/** For a sentence. */
export const degText = (deg: number, decimals: number): string => `${bareFigure(deg, decimals)}°`;

export const signedDegText = (deg: number, decimals: number): string => `${withPlus(bareFigure(deg, decimals))}°`;

/** With one decimal always: rests, and what stands apart. */
export const tenthsDegText = (deg: number): string => `${fixedFigure(deg, 1)}°`;

/** With two always: root mean squares. */
export const hundredthsDegText = (deg: number): string => `${fixedFigure(deg, 2)}°`;

/** Of what is measured: hundredths under a degree, tenths from there on. */
export const measuredDegText = (deg: number): string => degText(deg, Math.abs(deg) < 1 ? 2 : 1);

/** Of what is only to be found again: tenths under ten degrees, whole ones from there on. */
export const aboutDegText = (deg: number): string => degText(deg, Math.abs(deg) < 10 ? 1 : 0);

/** A room for tilting, never told as more than it is. */
export const roomText = (roomDeg: number): string =>
  roomDeg < 0.1 ? 'less than 0.1°' : `${fixedFigure(roomDeg, 1, 'at most')}°`;
