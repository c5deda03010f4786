/** Every time that something takes or is late by. `dayAndTime` of the wire writes when it was. */
import { bareFigure, fixedFigure } from './decimals.ts';

/** To a tenth, as words and a wheel are timed. */
export const secondsText = (seconds: number): string => `${fixedFigure(seconds, 1)} s`;

/** To a hundredth, as a hand's reaction is timed, and what follows what in a record. */
export const fineSecondsText = (seconds: number): string => `${fixedFigure(seconds, 2)} s`;

export const msText = (ms: number): string => `${bareFigure(ms, 0)} ms`;

/** A whole rip, in a sentence: 3 min 5 s. */
export const durationText = (seconds: number): string => minutesText(seconds, `${wholeSeconds(seconds) % 60}`);

/** The same where several stand under each other: 3 min 05 s. */
export const durationFigure = (seconds: number): string =>
  minutesText(seconds, `${wholeSeconds(seconds) % 60}`.padStart(2, '0'));

const wholeSeconds = (seconds: number): number => Math.round(seconds);

function minutesText(seconds: number, rest: string): string {
  const whole = wholeSeconds(seconds);
  return whole < 60 ? `${whole} s` : `${Math.floor(whole / 60)} min ${rest} s`;
}
