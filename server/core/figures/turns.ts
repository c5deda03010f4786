/** Turns of a handwheel in words. */
import { bareFigure, fixedFigure } from './decimals.ts';

/** "a quarter turn", "0.3 turns". */
export function turnsText(turns: number): string {
  if (turns === 0.25) return 'a quarter turn';
  if (turns === 0.5) return 'half a turn';
  return turns === 1 ? 'one turn' : `${bareFigure(turns, 2)} turns`;
}

/** How fast a hand turns: "0.50 turns a second". */
export const turnsPerSText = (turnsPerS: number): string => `${fixedFigure(turnsPerS, 2)} turns a second`;
