/** A point that stands off the fair line, in words that do not send anyone to the wrong one of its two figures. */

import type { Problem } from '../errors.ts';
import { fixedFigure } from '../figures/decimals.ts';
import { lengthText, placeText } from '../figures/lengths.ts';
import type { Notation } from '../figures/notation.ts';
import { toStep } from '../figures/rounding.ts';
import { MM_PER_INCH } from '../units.ts';
import type { PointResidual } from './pointResiduals.ts';

export interface ToldSlip {
  readonly station: string;
  readonly suspect: PointResidual;
  /** Whose figure is told to be wrong. */
  readonly side: 'y' | 'z' | 'both';
  readonly fairMm: number;
  /** What the pen may have done; undefined where no usual slip explains it. */
  readonly slip: string | undefined;
}

const NAMES = { y: 'half-breadth', z: 'height' } as const;

export function slipProblem(file: string, told: ToldSlip): Problem {
  return told.side === 'both' ? exchangeProblem(file, told) : figureProblem(file, { ...told, side: told.side });
}

function figureProblem(
  file: string,
  { station, suspect, side, fairMm, slip }: ToldSlip & { readonly side: 'y' | 'z' },
): Problem {
  const { point } = suspect;
  const [cell, foundMm] = side === 'y' ? [point.yCell, point.yMm] : [point.zCell, point.zMm];
  const fair = `about ${asWritten(cell.text, fairMm, foundMm)}, which would be fair${slip === undefined ? '' : ` (perhaps ${slip})`}`;
  return {
    code: 'off-the-fair-line',
    at: { file, row: cell.row, column: cell.column },
    found: `${JSON.stringify(cell.text)} on station ${station}, ${placeText(Math.abs(foundMm - fairMm), notationOfCell(cell.text, foundMm))} off the fair line`,
    wanted: `${fair}; ${lookUp(suspect, side)}`,
  };
}

/**
 * The point is off, but on a sloping section a wrong half-breadth and a wrong height look alike. A waterline's own height and a buttock's
 * own distance stand in no cell of the point, and are the same for all stations.
 */
function lookUp({ point, fairYMm, fairZMm, ifAt }: PointResidual, side: 'y' | 'z'): string {
  const { yMm, zMm, yCell, zCell } = point;
  if (yCell === zCell || (yCell.row === zCell.row && yCell.column === zCell.column))
    return 'look it up in the lines plan';
  const [other, cell, foundMm, fairMm] =
    side === 'y' ? (['z', zCell, zMm, fairZMm] as const) : (['y', yCell, yMm, fairYMm] as const);
  const both = `look up both figures of this point in the lines plan, y ${JSON.stringify(yCell.text)} and z ${JSON.stringify(zCell.text)}`;
  const isPossible =
    fairMm !== undefined &&
    (other === 'z' || fairMm >= 0) &&
    (other === 'y' ? ifAt(fairMm, zMm) : ifAt(yMm, fairMm)).isInOrder;
  if (!isPossible) return both;
  return `or, if ${side} is right, a ${NAMES[other]} (${other}) of about ${asWritten(cell.text, fairMm, foundMm)}: ${both}`;
}

function exchangeProblem(file: string, { station, suspect }: ToldSlip): Problem {
  const { yCell, zCell, zMm } = suspect.point;
  const [y, z] = [JSON.stringify(yCell.text), JSON.stringify(zCell.text)];
  return {
    code: 'off-the-fair-line',
    at: { file, row: yCell.row, column: yCell.column },
    found: `y ${y} and z ${z} on station ${station}, ${placeText(Math.abs(suspect.offMm), notationOfCell(zCell.text, zMm))} off the fair line`,
    wanted: `y ${z} and z ${y}, which would be fair (perhaps half-breadth and height changed places); look up both figures in the lines plan`,
  };
}

/** The fair length in the notation of the cell, as finely as tables of offsets are written. */
export function asWritten(text: string, fairMm: number, foundMm: number): string {
  const notation = notationOfCell(text, foundMm);
  if (notation === 'feet-inches-eighths' || notation === 'inches and fractions')
    return lengthText(toStep(fairMm, EIGHTH_MM, 'nearest'), notation);
  const number = /\d+(\.\d+)?/.exec(text)?.[0] ?? '';
  const unit = Number(number) === 0 ? 1 : Math.abs(foundMm) / Number(number);
  const decimals = number.split('.')[1]?.length ?? 0;
  return text.replace(/-?\d+(\.\d+)?/, fixedFigure(fairMm / unit, decimals));
}

const EIGHTH_MM = MM_PER_INCH / 8;

/** How a cell of the table is written, told by its text and by what it was read as. */
function notationOfCell(text: string, foundMm: number): Notation {
  if (/^-?\d+-\d+-\d+/.test(text)) return 'feet-inches-eighths';
  if (/[/\u00bc-\u00be\u2150-\u215e]|ft|feet|foot|['\u2032]/i.test(text)) return 'inches and fractions';
  const number = Number(/\d+(\.\d+)?/.exec(text)?.[0] ?? 0);
  const isInches = number > 0 && Math.abs(Math.abs(foundMm) / number - MM_PER_INCH) < 0.01;
  return isInches ? 'decimal inches' : 'mm';
}
