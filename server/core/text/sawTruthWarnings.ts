/** What is unlikely, or not known, about what the shop tells of its readout and its handwheel. */

import { aboutDegText } from '../figures/degrees.ts';
import type { Job } from '../job.ts';
import type { MainHand } from '../rip/leadingEnd.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { rowAt } from '../rowAt.ts';
import type { Warning } from '../warning.ts';

/** A readout is off by little, and by not much more from block to block: a jump beyond this is rather a slip (degrees, assumption). */
const JUMP_DEG = 1;
/** What a readout is off by at the most before setting it comes before correcting it (assumption). */
const OFF_DEG = 3;
/** Farther apart than this, two blocks leave much to the straight line between them (assumption). */
const APART_DEG = 20;

/** One at most: the table as a whole is looked at again anyway. */
export function readoutJumpWarnings({ saw }: Job): Warning[] {
  const off = saw.readoutTable.map(([shown, trueDeg]) => shown - trueDeg);
  const jumps = off.map((deg, i) => (i === 0 ? 0 : Math.abs(deg - rowAt(off, i - 1))));
  const jump = Math.max(0, ...jumps);
  if (jump > JUMP_DEG) {
    const at = jumps.indexOf(jump);
    const [a, b] = [saw.readoutTable[at - 1], saw.readoutTable[at]];
    const pair = `${pairText(a)} and ${pairText(b)}`;
    return [
      warning(
        `Between two test blocks, ${pair} (shown, true), the readout's error changes by ${aboutDegText(jump)}. That is rare: measure both blocks again before you trust what lies between them.`,
      ),
    ];
  }
  const worst = off.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  if (Math.abs(worst) > OFF_DEG)
    return [
      warning(
        `The readout is off by up to ${aboutDegText(worst)}. Set it first, square at zero, and test the blocks again: a correction is for what is left after setting.`,
      ),
    ];
  const gap = saw.readoutTable.findIndex(
    ([, deg], i) => i > 0 && deg - (saw.readoutTable[i - 1]?.[1] ?? deg) > APART_DEG,
  );
  if (gap === -1) return [];
  const [from, to] = [rowAt(rowAt(saw.readoutTable, gap - 1), 1), rowAt(rowAt(saw.readoutTable, gap), 1)];
  return [
    warning(
      `No block was tested between ${aboutDegText(from)} and ${aboutDegText(to)}: a straight line is taken there. Test one near ${aboutDegText(Math.round((from + to) / 2))}.`,
    ),
  ];
}

/** A turn that is worth more than this times its neighbour's was rather miscounted (assumption). */
const TURN_RATIO = 2;
const TRUSTED_BEYOND_DEG = 1;

export function turnsTableWarnings({ saw }: Job, hand: MainHand, marks: readonly PlannedMark[]): Warning[] {
  const { turnsTable } = saw;
  const [first, last] = [turnsTable?.[0], turnsTable?.at(-1)];
  if (turnsTable === undefined || first === undefined || last === undefined) return [];
  const rates = turnsTable
    .slice(1)
    .map(([turns, deg], i) => (deg - rowAt(rowAt(turnsTable, i), 1)) / (turns - rowAt(rowAt(turnsTable, i), 0)));
  const odd = rates.findIndex((rate, i) => i > 0 && ratio(rate, rates[i - 1] ?? rate) > TURN_RATIO);
  const slips =
    odd === -1
      ? []
      : [
          turnsWarning(
            `A turn is worth ${aboutDegText(rowAt(rates, odd - 1))} up to ${pairText(turnsTable[odd])} (turns, tilt) and ${aboutDegText(rowAt(rates, odd))} beyond. A gear goes over gently: count the turns there again.`,
          ),
        ];
  const tilts = marks.map(({ sawnDeg }) => hand * sawnDeg);
  const beyond = marks.filter((_, i) => isBeyond(rowAt(tilts, i), first[1], last[1]));
  const [mark] = beyond;
  if (mark === undefined) return slips;
  const message = `The turns were counted from ${aboutDegText(first[1])} to ${aboutDegText(last[1])} only, but the tilt goes from ${aboutDegText(Math.min(...tilts))} to ${aboutDegText(Math.max(...tilts))}: beyond the table the last rows are extended. Count the turns there too.`;
  return [...slips, { ...turnsWarning(message), mark: mark.mark }];
}

const isBeyond = (tilt: number, least: number, most: number): boolean =>
  tilt < least - TRUSTED_BEYOND_DEG || tilt > most + TRUSTED_BEYOND_DEG;
const ratio = (a: number, b: number): number => Math.max(a / b, b / a);
const warning = (message: string): Warning => ({ code: 'readout-table', message });
const turnsWarning = (message: string): Warning => ({ code: 'turns-table', message });
const pairText = (pair: readonly [number, number] | undefined): string =>
  pair === undefined ? '' : `[${pair[0]}, ${pair[1]}]`;
