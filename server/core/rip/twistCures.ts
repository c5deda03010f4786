/** What lets a blade follow a bevel that changes too fast for it, each cure with its figure, reckoned by the limit itself. */
import type { Length } from '../figures/lengths.ts';
import { SOLD_WIDTHS_MM } from '../saw/blade.ts';
import { type TwistSaw, twistLimitDegPerM } from '../saw/twist.ts';
import { cosDeg, degToRad } from '../units.ts';

/** How a rip is sawn, as far as the twist limit asks. */
interface TwistedCut {
  readonly saw: TwistSaw;
  /** The height that the blade cuts. */
  readonly sidingMm: number;
  readonly bevelDeg: number;
}

export type TwistCure =
  /** The widest blade sold that follows. */
  | { readonly kind: 'narrower blade'; readonly bladeWidthMm: number }
  /** Teeth set for this kerf; the wedges lose what it takes more, their bevel does not change. */
  | { readonly kind: 'more set'; readonly kerfMm: number }
  /** So many pieces side by side, each of a part of the siding; `sidingMm` is what one of them may be at most. */
  | { readonly kind: 'more pieces'; readonly pieces: number; readonly sidingMm: number }
  /** Fed along the line at half the height, not along a fence or a line at another height, so that the blade is tangent there. */
  | { readonly kind: 'follow the middle'; readonly tangentHeightMm: number };

/** More set than this over the blade's thickness leaves a rough, wandering cut. Common practice, no source. */
const MOST_KERF_OVER_BLADE = 3;
const MOST_PIECES = 4;

export const limitOf = ({ saw, sidingMm, bevelDeg }: TwistedCut): number => twistLimitDegPerM(saw, sidingMm, bevelDeg);

/** The cut with the cure applied. */
export function withCure(cut: TwistedCut, cure: TwistCure): TwistedCut {
  switch (cure.kind) {
    case 'narrower blade':
      return { ...cut, saw: { ...cut.saw, bladeWidthMm: cure.bladeWidthMm } };
    case 'more set':
      return { ...cut, saw: { ...cut.saw, kerfMm: cure.kerfMm } };
    case 'more pieces':
      return { ...cut, sidingMm: cut.sidingMm / cure.pieces };
    case 'follow the middle':
      return { ...cut, saw: { ...cut.saw, pivotHeightMm: cure.tangentHeightMm } };
  }
}

/** Every cure that alone lets the blade follow `twistDegPerM` (> 0); none where the blade follows as it is. */
export function twistCures(cut: TwistedCut, twistDegPerM: number): readonly TwistCure[] {
  if (limitOf(cut) >= twistDegPerM) return [];
  const offered = [narrower(cut, twistDegPerM), moreSet(cut, twistDegPerM), pieces(cut, twistDegPerM), middle(cut)];
  return offered.filter(
    (cure): cure is TwistCure => cure !== undefined && limitOf(withCure(cut, cure)) >= twistDegPerM,
  );
}

function narrower(cut: TwistedCut, twistDegPerM: number): TwistCure | undefined {
  const mostMm = (cut.saw.bladeWidthMm * limitOf(cut)) / twistDegPerM;
  const bladeWidthMm = [...SOLD_WIDTHS_MM].reverse().find((widthMm) => widthMm <= mostMm);
  return bladeWidthMm === undefined ? undefined : { kind: 'narrower blade', bladeWidthMm };
}

const radPerMm = (degPerM: number): number => degToRad(degPerM) / 1000;
const farthestMm = ({ saw, sidingMm }: TwistedCut): number =>
  Math.max(Math.abs(saw.pivotHeightMm), Math.abs(sidingMm - saw.pivotHeightMm));

/** Rounded up to a tenth of a millimetre. */
function moreSet(cut: TwistedCut, twistDegPerM: number): TwistCure | undefined {
  const { bladeThicknessMm, bladeWidthMm } = cut.saw;
  const clearanceMm = (2 * farthestMm(cut) * bladeWidthMm * radPerMm(twistDegPerM)) / cosDeg(cut.bevelDeg);
  const kerfMm = Math.ceil((bladeThicknessMm + clearanceMm) * 10) / 10;
  return kerfMm > MOST_KERF_OVER_BLADE * bladeThicknessMm ? undefined : { kind: 'more set', kerfMm };
}

/** Each piece stands on the table by itself, so its farthest wood is nearer to the tilt axis unless that stands high. */
function pieces(cut: TwistedCut, twistDegPerM: number): TwistCure | undefined {
  const { kerfMm, bladeThicknessMm, bladeWidthMm, pivotHeightMm } = cut.saw;
  const reachMm = ((kerfMm - bladeThicknessMm) * cosDeg(cut.bevelDeg)) / (2 * bladeWidthMm * radPerMm(twistDegPerM));
  if (reachMm < Math.abs(pivotHeightMm)) return undefined;
  const sidingMm = pivotHeightMm + reachMm;
  const count = Math.ceil(cut.sidingMm / sidingMm - 1e-9);
  return count < 2 || count > MOST_PIECES ? undefined : { kind: 'more pieces', pieces: count, sidingMm };
}

const middle = (cut: TwistedCut): TwistCure => ({ kind: 'follow the middle', tangentHeightMm: cut.sidingMm / 2 });

/** A cure in words, its length as the user writes lengths. */
export function twistCureText(cure: TwistCure, length: Length): string {
  switch (cure.kind) {
    case 'narrower blade':
      return `a narrower blade, ${length(cure.bladeWidthMm)} wide`;
    case 'more set':
      return `more set, for a kerf of ${length(cure.kerfMm, 'at least')}`;
    case 'more pieces':
      return `thinner stock: ${cure.pieces} pieces side by side, each of 1/${cure.pieces} of the siding (at most ${length(cure.sidingMm, 'at most')})`;
    case 'follow the middle':
      return `feeding along a line at half the height (${length(cure.tangentHeightMm)})`;
  }
}
