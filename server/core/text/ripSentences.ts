/** What the plan says of the rip in sentences, the same in a terminal and on a page. `length` writes a length in the user's units. */
import { degText } from '../figures/degrees.ts';
import { rateText } from '../figures/feeds.ts';
import { type Length, lengthIn } from '../figures/lengths.ts';
import type { Notation } from '../figures/notation.ts';
import type { BladePlan } from '../plan/bladePlan.ts';
import type { LeftOver, RipPlan } from '../plan/ripPlan.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { twistCureText } from '../rip/twistCures.ts';

/** How it is fed, how far the line wanders, and what there is to steer. */
export function feedSentence({ feeds, straightAtMm, lineMm, line }: RipPlan, sidingMm: number, length: Length): string {
  const wander = `The line wanders by ${length(line.upperWanderMm)} on the upper side of the stock and by ${length(line.lowerWanderMm)} on the lower.`;
  const radius = line.leastRadiusMm === null ? '' : ` Its smallest radius is ${length(line.leastRadiusMm, 'about')}.`;
  const axis =
    straightAtMm === 0
      ? 'on the table, where the tilt axis lies'
      : `${length(Math.abs(straightAtMm))} ${straightAtMm > 0 ? 'above' : 'below'} the table, at the height of the tilt axis`;
  if (feeds === 'along a fence')
    return `Feed straight along the fence, with no steering: ${axis}, the middle of the kerf keeps ${length(lineMm)} from the face at the fence. ${wander}${radius}`;
  const where =
    Math.abs(straightAtMm - sidingMm / 2) < 1e-9
      ? 'through the middle of the siding'
      : `${length(straightAtMm)} above the table`;
  const steer =
    line.steerMm < 0.05
      ? 'The tilt axis is at that height, so the stock is fed straight all the same.'
      : `A fence is no help here: over the rip the sawyer moves the stock ${length(line.steerMm)} sideways under the blade, keeping it to the drawn line.`;
  return `Follow a line: the cut runs straight ${where}, ${length(lineMm)} from the reference face. ${wander} ${steer}${radius}`;
}

/** What the stock needs beyond the figures it goes through the saw with. */
export const allowanceSentence = (
  { roughThicknessMm, cleaningUpMm, endWasteMm, thinnestEdgeMm }: RipPlan,
  length: Length,
): string =>
  `Get it out ${length(roughThicknessMm, 'at least')} thick and dress both faces: they become the flats. ${length(cleaningUpMm)} a face for cleaning up, ` +
  `${length(endWasteMm)} of waste at each end, no edge under ${length(thinnestEdgeMm, 'at least')}.`;

/** Whether the plan knows how the moulded edge turns: from a pattern, or from offsets. */
export const knowsEdge = (marks: readonly Pick<PlannedMark, 'yMm'>[]): boolean => marks.some(({ yMm }) => yMm !== null);

/** Both wedges come from one cut: whose bevels are right, and what is left on the other. */
export function leftSentence({ left, favours, registerMm }: RipPlan, length: Length, isEdgeKnown: boolean): string {
  const say = (which: string, over: LeftOver): string =>
    `${which} is up to ${degText(Math.abs(over.deg), 2)} off (${length(Math.abs(over.mm))} across the siding, at girth ${length(over.girthMm)})`;
  const { outer, inner } = left;
  if (!isEdgeKnown)
    return 'Whether one cut suits both wedges is not known without a pattern of the moulded edge: where the frame turns it does not.';
  if (inner === null && outer === null) return 'One cut suits both wedges: nothing is left to take off.';
  const agree = `One cut cannot suit both wedges where the frame turns. They agree at girth ${length(registerMm)}; that leaves the least to plane off elsewhere`;
  if (favours === 'outer' || outer === null)
    return inner === null
      ? `${agree}.`
      : `${agree}. The outer wedge, which carries the planking, is right everywhere. ${say('The inner', inner)}: plane it off if it shows.`;
  const parts = [say('the outer', outer), ...(inner === null ? [] : [say('the inner', inner)])];
  return `${agree}. There the cut shares the difference: ${parts.join(', ')}.`;
}

/** Where to cut the wedges off, and when. */
export const endsSentence = ({ ends: { outer, inner } }: RipPlan, length: Length): string =>
  `Net lengths: outer wedge ${length(outer.lengthMm)}, from ${length(outer.heelMm)} to ${length(outer.headMm)} along the stock from mark 1; ` +
  `inner wedge ${length(inner.lengthMm)}, from ${length(inner.heelMm)} to ${length(inner.headMm)}. Leave the waste on until a wedge is ` +
  'bent and offered up: fit the heel into its pocket first, then mark the head hard up to the deck. Too long, it will not go in; too short, it stays short.';

export const battenSentence = ({ batten }: RipPlan, length: Length): string | undefined =>
  batten === undefined
    ? undefined
    : `The girths were marked on a batten ${length(batten.thicknessMm)} thick: half its thickness is taken out, which moves the last row by ${length(batten.atHeadMm)}.`;

/** How fast the bevel changes against what the blade follows, and how sharp a line it is fed along. */
export function bladeSentence({ blade, line }: Pick<RipPlan, 'blade' | 'line'>, notation: Notation): string {
  const length = lengthIn(notation);
  const share = ({ degPerM, limitDegPerM }: BladePlan['marks'][number]): number => degPerM / limitDegPerM;
  const worst = blade.marks.reduce((a, b) => (share(b) > share(a) ? b : a));
  const turns =
    line.leastRadiusMm === null
      ? 'the line is straight'
      : `the line turns in ${length(line.leastRadiusMm, 'about')} at the least`;
  const verdict = blade.marks.some(({ isTooFast }) => isTooFast)
    ? 'That is too fast.'
    : 'So the blade can follow everywhere.';
  return (
    `A blade ${length(blade.widthMm)} wide and ${length(blade.thicknessMm)} thick. After mark ${worst.mark} the bevel changes by ` +
    `${rateText(worst.degPerM, notation)}; there the blade can follow ${rateText(worst.limitDegPerM, notation)}. ${verdict} ` +
    `It needs a radius of ${length(blade.leastRadiusMm, 'about, at least')} or more; ${turns}.`
  );
}

export const twistCureSentences = ({ blade }: Pick<RipPlan, 'blade'>, length: Length): readonly string[] =>
  blade.cures.map((cure) => `Cure: ${twistCureText(cure, length)}.`);
