/** What speaks against the cut as it is planned: short, before anything else. The whole of each warning stands with the curve. */

import type { PlanWarning } from '../../core/plan/cure.ts';
import { type ForbiddingCode, forbiddingWarnings } from '../../core/plan/forbids.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { cureSentence } from '../../core/text/cureText.ts';
import { callFigure } from '../paperFigures.ts';

type Say = (where: string, plan: Plan) => string;

/** Of these the plan warns once, at the mark where it is worst. */
const worst = (where: string): string => (where === '' ? '' : `, worst${where}`);

const GRAVE: Readonly<Record<ForbiddingCode, Say>> = {
  'tilt-out-of-reach': (where, { saw }) =>
    `The saw does not reach the bevel${worst(where)}: it goes from ${saw.tiltDeg.map((deg) => `${callFigure(deg, saw)}°`).join(' to ')}.`,
  'which-end-unsure': (_, { leads }) =>
    `Not confirmed: that the ${leads} leads. With the wrong end first both halves are scrap.`,
  twist: (where) => `The bevel changes faster than the blade follows${worst(where)}.`,
  'quick-turn': (where) => `A turn in one go is more than the blade follows in its kerf${worst(where)}.`,
  bend: (where) => `A wedge is bent sharper than its wood bears${worst(where)}.`,
  'stack-too-thin': () => 'Between the wedges there is no room for a lamination.',
};

interface BlockingLine {
  readonly line: string;
  readonly helps?: string;
}

export function blockingLines(plan: Plan): readonly BlockingLine[] {
  return [...handChangeLines(plan).map((line) => ({ line })), ...said(plan, forbiddingWarnings(plan))];
}

/** One line a code, with what cures it. */
export function said(plan: Plan, warnings: readonly PlanWarning[]): readonly BlockingLine[] {
  const codes = [...new Set(warnings.map(({ code }) => code))].filter((code): code is ForbiddingCode => code in GRAVE);
  return codes.map((code) => {
    const these = warnings.filter((each) => each.code === code);
    const marks = these.flatMap(({ mark }) => (mark === undefined ? [] : [mark]));
    const helps = these.map(cureSentence).find((sentence) => sentence !== undefined);
    return { line: GRAVE[code](atMarks(marks), plan), ...(helps === undefined ? {} : { helps }) };
  });
}

function handChangeLines({ rip }: Plan): readonly string[] {
  return (rip?.handChanges ?? [])
    .filter(({ isReached }) => !isReached)
    .map(
      ({ afterMark }) =>
        `After mark ${afterMark} the bevel passes through square, and the saw does not tilt so far the other way: cross-cut the stock there and rip each length as a job of its own.`,
    );
}

/** For instance ` at marks 3, 5 to 9`. */
export function atMarks(marks: readonly number[]): string {
  const sorted = [...new Set(marks)].sort((a, b) => a - b);
  if (sorted.length === 0) return '';
  const runs: [number, number][] = [];
  for (const mark of sorted) {
    const last = runs.at(-1);
    if (last !== undefined && mark === last[1] + 1) last[1] = mark;
    else runs.push([mark, mark]);
  }
  const named = runs.flatMap(([from, to]) =>
    from === to ? `${from}` : to === from + 1 ? [`${from}`, `${to}`] : `${from} to ${to}`,
  );
  return ` at mark${sorted.length === 1 ? '' : 's'} ${named.join(', ')}`;
}
