/** Turns of a handwheel in words: "a quarter turn", "0.3 turns". */
export function turnsText(turns: number): string {
  if (turns === 0.25) return 'a quarter turn';
  if (turns === 0.5) return 'half a turn';
  return turns === 1 ? 'one turn' : `${Number(turns.toFixed(2))} turns`;
}
