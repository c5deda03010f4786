/** What speaks against the cut as it is planned: short, before anything else. The whole of each warning stands with the curve. */
import type { Plan, WarningCode } from '../../core/plan.ts';
import { callFigure } from '../lengths.ts';

type Say = (where: string, plan: Plan) => string;

/** Of these the plan warns once, at the mark where it is worst. */
const worst = (where: string): string => (where === '' ? '' : `, worst${where}`);

/** Codes that are not here are advice: with them a frame can be sawn. */
const GRAVE: Partial<Record<WarningCode, Say>> = {
  'tilt-out-of-reach': (where, { saw }) =>
    `The saw does not reach the bevel${worst(where)}: it goes from ${saw.tiltDeg.map((deg) => `${callFigure(deg, saw)}°`).join(' to ')}.`,
  'which-end-unsure': (_, { leads }) =>
    `Not confirmed: that the ${leads} leads. With the wrong end first both halves are scrap.`,
  twist: (where) => `The bevel changes faster than the blade follows${worst(where)}.`,
  'quick-turn': (where) => `A turn in one go is more than the blade follows in its kerf${worst(where)}.`,
  bend: (where) => `A wedge is bent sharper than its wood bears${worst(where)}.`,
  'stack-too-thin': () => 'Between the wedges there is no room for a lamination.',
};

export function graveLines(plan: Plan): readonly string[] {
  const codes = [...new Set(plan.warnings.map(({ code }) => code))];
  const said = codes.flatMap((code) => {
    const marks = plan.warnings.flatMap((each) => (each.code === code && each.mark !== undefined ? [each.mark] : []));
    return GRAVE[code]?.(atMarks(marks), plan) ?? [];
  });
  return [...handChangeLines(plan), ...said];
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
