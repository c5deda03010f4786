/** Test cuts for the readout table: what the readout shows beside the true tilt of a test block. */

import { withTrueMinus } from '../../../core/figures/decimals.ts';
import { hundredthsDegText } from '../../../core/figures/degrees.ts';
import { CALIPER_UNIT, caliperFigure } from '../../../core/figures/lengths.ts';
import { unitsOf } from '../../../core/figures/notation.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { rowAt } from '../../../core/rowAt.ts';
import { trueTiltDeg } from '../../../core/saw/readout.ts';
import { MM_PER_INCH, tanDeg } from '../../../core/units.ts';
import type { Sheets } from '../../draw/sheets.ts';
import { callFigure, lengthOf } from '../../paperFigures.ts';
import { drawTable } from '../table.ts';

const STEP_DEG = 5;
/** Height over which the offset of the block is measured. */
const BLOCK_MM: Readonly<Record<'mm' | 'in', number>> = { mm: 100, in: 4 * MM_PER_INCH };

/** Readings to cut at: zero, every five degrees as far as the plan goes, its greatest figure on either side, and where the plan says. */
export function readingsToTry(plan: Plan): readonly number[] {
  const calls = plan.marks.map(({ callDeg }) => callDeg);
  const [least, most] = [Math.min(0, ...calls), Math.max(0, ...calls)];
  const fives = Array.from({ length: 37 }, (_, i) => (i - 18) * STEP_DEG).filter((deg) => deg > least && deg < most);
  const tried = [least, ...fives, 0, most];
  const others = (plan.sawTruth?.testAtDeg ?? []).filter((deg) => tried.every((each) => Math.abs(each - deg) > 1));
  return [...new Set([...tried, ...others])].toSorted((a, b) => a - b);
}

type Side = 'less' | 'more' | 'both' | 'either';
/**
 * From which figures the run comes to this one while it saws, so that the looseness of the wheel lies as it will then. The first
 * figure is turned to before the wood, from square at zero.
 */
export function comesFrom(plan: Plan, deg: number): Side {
  const calls = (plan.leads === 'head' ? plan.marks.toReversed() : plan.marks).map(({ callDeg }) => callDeg);
  const first = rowAt(calls, 0);
  let [isLess, isMore] = [first === deg && first > 0, first === deg && first < 0];
  for (const [index, to] of calls.entries()) {
    const from = calls[index - 1] ?? to;
    isLess ||= from < deg && deg <= to;
    isMore ||= from > deg && deg >= to;
  }
  if (isLess && isMore) return 'both';
  return isLess ? 'less' : isMore ? 'more' : 'either';
}

/** Off the square over the block's height. By a caliper: a tenth of a degree must be seen in it. */
const offMm = (plan: Plan, deg: number): number => BLOCK_MM[unitsOf(plan.notation)] * Math.abs(tanDeg(deg));

export function drawTestCuts(sheets: Sheets, plan: Plan): void {
  const { notation } = plan;
  const block = lengthOf(BLOCK_MM[unitsOf(notation)], notation);
  const tried = readingsToTry(plan);
  const sides = tried.map((deg) => comesFrom(plan, deg));
  sheets.list([
    `Dress a block square on four sides, higher than ${block}. Square the blade by a try square, and write down what the readout shows.`,
    `Turn to each figure as the run comes to it, from smaller figures (less) or from larger ones (more), so that the looseness of the wheel is taken up.${sides.includes('both') ? ' Where it says both, the run comes to it from both sides: cut 1 from smaller figures, cut 2 from larger, and write down both.' : ''} Cut a slice off the block, blade guides and guard as for the rip.`,
    `Stand the slice on its square side against a try square: measure by a caliper${notation === 'mm' ? '' : ', to 0.001 in,'} how far the sawn face is off over ${block} of height, and find the true tilt in the table below; or take its angle with a protractor. Two cuts each; write down both.`,
    'Put the true tilts into the job, readout first: "readoutTable": [[0, 0.2], [10, 10.1]]. Then plan again: the calls change with it.',
  ]);
  sheets.topMm += 2;
  drawCuts(sheets, plan, tried, sides);
  drawOffsets(sheets, plan, tried);
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

function drawCuts(sheets: Sheets, plan: Plan, tried: readonly number[], sides: readonly Side[]): void {
  const { saw, notation } = plan;
  const wide = (sheets.wideMm - 30 - 20 - 38) / 3;
  drawTable(
    sheets,
    [
      { head: 'Readout shows', wideMm: 30, align: 'right', sizeMm: 9, face: 'strong' },
      { head: 'Turn from', wideMm: 20, align: 'middle', sizeMm: 6 },
      { head: `Off if true, ${CALIPER_UNIT[notation]}`, wideMm: 38, align: 'right', sizeMm: 6 },
      { head: 'Cut 1, true tilt', wideMm: wide, align: 'left', sizeMm: 6 },
      { head: 'Cut 2, true tilt', wideMm: wide, align: 'left', sizeMm: 6 },
      { head: 'In the job now', wideMm: wide, align: 'right', sizeMm: 6 },
    ],
    tried.map((deg, index) => [
      `${callFigure(deg, saw)}°`,
      sides[index] ?? '',
      caliperFigure(offMm(plan, deg), notation),
      '',
      '',
      saw.readoutTable.length === 0
        ? 'taken as true'
        : withTrueMinus(hundredthsDegText(trueTiltDeg(deg, saw.readoutTable))),
    ]),
  );
}

/** Round each figure, in halves of a degree. */
const AROUND_DEG = [-1, -0.5, 0, 0.5, 1] as const;

/** From what the caliper shows to the true tilt: the offsets round each figure, and what a tenth of a degree is there. */
function drawOffsets(sheets: Sheets, plan: Plan, tried: readonly number[]): void {
  const { saw, notation } = plan;
  const unit = CALIPER_UNIT[notation];
  const tenthMm = 36;
  const wideMm = (sheets.wideMm - tenthMm) / AROUND_DEG.length;
  sheets.topMm += 3;
  sheets.paragraph(
    `True tilt, by how far the face is off over ${lengthOf(BLOCK_MM[unitsOf(notation)], notation)} (${unit}). Across zero the face is off to the other side.`,
    { sizeMm: 5, face: 'strong' },
  );
  drawTable(
    sheets,
    [
      ...AROUND_DEG.map((by) => ({
        head: by === 0 ? 'the figure' : `${by < 0 ? '−' : '+'}${Math.abs(by)}°`,
        wideMm,
        align: 'right' as const,
        sizeMm: 4.6,
        face: by === 0 ? ('strong' as const) : ('plain' as const),
      })),
      { head: '0.1° is there', wideMm: tenthMm, align: 'right', sizeMm: 4.6 },
    ],
    tried.map((deg) => [
      ...AROUND_DEG.map(
        (by) =>
          `${callFigure(deg + by, { ...saw, readoutDeg: Math.min(saw.readoutDeg, 0.5) })}°: ${caliperFigure(offMm(plan, deg + by), notation)}`,
      ),
      `${caliperFigure(tenthOffMm(plan, deg), notation)} ${unit}`,
    ]),
  );
}

const tenthOffMm = ({ notation }: Plan, deg: number): number =>
  BLOCK_MM[unitsOf(notation)] * (tanDeg(Math.abs(deg) + 0.05) - tanDeg(Math.abs(deg) - 0.05));
