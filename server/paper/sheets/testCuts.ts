/** Test cuts for the readout table: what the readout shows beside the true tilt of a test block. */
import type { Plan } from '../../core/plan.ts';
import { trueTiltDeg } from '../../core/rip/readout.ts';
import { tanDeg } from '../../core/units.ts';
import type { Sheets } from '../draw/sheets.ts';
import { callFigure, figureOf, lengthOf, minus } from '../lengths.ts';
import { drawTable } from './table.ts';

const STEP_DEG = 5;
/** Height over which the offset of the block is measured. */
const BLOCK_MM: Readonly<Record<Plan['units'], number>> = { mm: 100, in: 4 * 25.4 };

/** Readings to cut at: zero, every five degrees as far as the plan goes, its greatest figure on either side, and where the plan says. */
export function readingsToTry(plan: Plan): readonly number[] {
  const calls = plan.marks.map(({ callDeg }) => callDeg);
  const [least, most] = [Math.min(0, ...calls), Math.max(0, ...calls)];
  const fives = Array.from({ length: 37 }, (_, i) => (i - 18) * STEP_DEG).filter((deg) => deg > least && deg < most);
  const tried = [least, ...fives, 0, most];
  const others = (plan.sawTruth?.testAtDeg ?? []).filter((deg) => tried.every((each) => Math.abs(each - deg) > 1));
  return [...new Set([...tried, ...others])].toSorted((a, b) => a - b);
}

export function drawTestCuts(sheets: Sheets, plan: Plan): void {
  const { saw, units } = plan;
  const block = lengthOf(BLOCK_MM[units], units);
  sheets.list([
    `Dress a block square on four sides, higher than ${block}. Square the blade by a try square, and write down what the readout shows.`,
    'Turn to each figure from the side from which the run comes to it, so that the looseness of the wheel is taken up. Cut a slice off the block, blade guides and guard as for the rip.',
    `Stand the slice on its square side against a try square: measure how far the sawn face is off over ${block} of height, or take its angle with a protractor. Two cuts each; write down both.`,
    'Put the true tilts into the job, readout first: "readoutTable": [[0, 0.2], [10, 10.1]]. Then plan again: the calls change with it.',
  ]);
  sheets.topMm += 2;
  const wide = (sheets.wideMm - 34 - 44) / 3;
  drawTable(
    sheets,
    [
      { head: 'Readout shows', wideMm: 34, align: 'right', sizeMm: 9, face: 'strong' },
      { head: `Off over ${block} if true`, wideMm: 44, align: 'right', sizeMm: 6 },
      { head: 'Cut 1, true tilt', wideMm: wide, align: 'left', sizeMm: 6 },
      { head: 'Cut 2, true tilt', wideMm: wide, align: 'left', sizeMm: 6 },
      { head: 'In the job now', wideMm: wide, align: 'right', sizeMm: 6 },
    ],
    readingsToTry(plan).map((deg) => [
      `${callFigure(deg, saw)}°`,
      figureOf(BLOCK_MM[units] * Math.abs(tanDeg(deg)), units),
      '',
      '',
      saw.readoutTable.length === 0 ? 'taken as true' : `${minus(trueTiltDeg(deg, saw.readoutTable).toFixed(2))}°`,
    ]),
  );
  sheets.topMm += 4;
  sheets.paragraph('Saw, blade, date and who measured:', { sizeMm: 5, face: 'strong' });
  for (let line = 0; line < 2; line += 1) {
    const at = sheets.take(11) + 10;
    sheets.pen.line(
      [
        [sheets.leftMm, at],
        [sheets.leftMm + sheets.wideMm, at],
      ],
      { widthMm: 0.2 },
    );
  }
}
