/** What stands at each mark of the strip, and where across it: a line at its place, and a flag with number, bevel and code. */
import type { Plan } from '../../core/plan/plan.ts';
import { makeSetup } from '../../core/run/makeSetup.ts';
import { markCodeText } from '../../wire/message/markCode.ts';
import { QUIET_MODULES } from '../draw/qrCode.ts';
import { widthMm } from '../draw/typeface.ts';
import { callFigure } from '../paperFigures.ts';

interface StripMark {
  readonly mark: number;
  /** Along the strip from the first mark of the run. */
  readonly alongMm: number;
  readonly call: string;
  /** The text of its code: what the codes page and the run's API give too. */
  readonly code: string;
}

/** The marks in the order in which they come to the blade. */
export const stripMarks = (plan: Plan): readonly StripMark[] =>
  makeSetup(plan, 'pair', {}).stations.map(({ mark, positionMm, callDeg }) => ({
    mark,
    alongMm: positionMm,
    call: `${callFigure(callDeg, plan.saw)}°`,
    code: markCodeText(plan, mark),
  }));

/** How flags are built: the figures over the code, or beside it where the strip is narrow. */
export interface Build {
  readonly figures: 'over the code' | 'beside the code';
  readonly moduleMm: number;
  /** Height of the figures' em. */
  readonly typeMm: number;
  /** Height of the band of figures over the code. */
  readonly bandMm: number;
  readonly lanes: number;
  /** Above and below the lanes, where only rule and mark lines are. */
  readonly headMm: number;
  readonly footMm: number;
}

const SYMBOL_MODULES = 21;
export const codeBoxMm = ({ moduleMm }: Pick<Build, 'moduleMm'>): number =>
  (SYMBOL_MODULES + 2 * QUIET_MODULES) * moduleMm;
export const laneMm = (build: Build): number => codeBoxMm(build) + build.bandMm;
export const stripHighMm = (build: Build): number => build.headMm + build.lanes * laneMm(build) + build.footMm;

export interface Flag extends StripMark {
  /** From the edge on which the rule is: 0, 1, ...; null where its neighbours leave no room for it. */
  readonly lane: number | null;
  readonly fromMm: number;
  readonly toMm: number;
}

const GAP_MM = 1.5;
/** Between a figure and what is round it, as a share of the type's size. */
export const PAD = 0.25;

/** How wide number and bevel are: the number in a box of its own, so that it is not taken for a bevel. */
export function figuresMm({ mark, call }: Pick<StripMark, 'mark' | 'call'>, typeMm: number): readonly [number, number] {
  return [widthMm(`${mark}`, 'strong', typeMm) + 2 * PAD * typeMm, widthMm(call, 'strong', typeMm)];
}

function extent(mark: StripMark, build: Build): readonly [number, number] {
  const box = codeBoxMm(build);
  const [number, call] = figuresMm(mark, build.typeMm);
  const figures = number + PAD * build.typeMm + call;
  const { alongMm } = mark;
  if (build.figures === 'beside the code') return [alongMm - box / 2, alongMm + box / 2 + figures + GAP_MM];
  const half = Math.max(box, figures + GAP_MM) / 2;
  return [alongMm - half, alongMm + half];
}

/** Each flag into the first lane that is free there. */
function inLanes(marks: readonly StripMark[], build: Build): readonly Flag[] {
  const freeFromMm = Array.from({ length: build.lanes }, () => Number.NEGATIVE_INFINITY);
  return marks.map((mark) => {
    const [fromMm, toMm] = extent(mark, build);
    const free = freeFromMm.findIndex((from) => from <= fromMm);
    if (free >= 0) freeFromMm[free] = toMm;
    return { ...mark, lane: free < 0 ? null : free, fromMm, toMm };
  });
}

export interface Flagged {
  readonly build: Build;
  readonly flags: readonly Flag[];
}

/** The first build in which every mark has its flag; where there is none, the last. */
export function flagged(marks: readonly StripMark[], builds: readonly [Build, ...Build[]]): Flagged {
  let made: Flagged | undefined;
  for (const build of builds) {
    made = { build, flags: inLanes(marks, build) };
    if (made.flags.every(({ lane }) => lane !== null)) return made;
  }
  return made ?? { build: builds[0], flags: inLanes(marks, builds[0]) };
}
