import { amplify, SAMPLE_RATE_HZ } from '../../../audio/pcm/format.ts';
import { loudnessLufs } from '../../../audio/pcm/loudness.ts';
import { CLIP_LUFS } from '../../../audio/pcm/makeClip.ts';
import { resample } from '../../../audio/recorded/resample.ts';
import { draws } from '../../../server/core/numeric/draws.ts';
import { EAR_RATE_HZ } from './ear.ts';
import { EARMUFF, OWN_NOISE, OWN_NOISE_LU } from './earmuff.ts';
import { sawNoise } from './sawNoise.ts';
import { shaped } from './spectrum.ts';

/** Where a call is heard: how many LU it stands over the saw, and whether both come through an earmuff. */
export interface Place {
  readonly name: string;
  readonly overSawLu: number;
  readonly isMuffed: boolean;
}

export const PLACES: readonly Place[] = [
  { name: '+20', overSawLu: 20, isMuffed: false },
  { name: '+10', overSawLu: 10, isMuffed: false },
  { name: '+5', overSawLu: 5, isMuffed: false },
  { name: '0', overSawLu: 0, isMuffed: false },
  { name: 'muff +5', overSawLu: 5, isMuffed: true },
];
export const AT_5 = PLACES.filter(({ name }) => name === '+5');
export const AT_5_AND_0 = PLACES.filter(({ name }) => name === '+5' || name === '0');

/** The saw runs before and after the call, so that the ear knows it; silence there would mislead it. */
const BEFORE_S = 0.4;
const AFTER_S = 0.4;
const NOISE_S = 90;
const SEED = 14;
/** Room for peaks. */
const EAR_LUFS = -28;

let saw: Float64Array | undefined;
let own: Float64Array | undefined;

/**
 * What comes to the ear (16,000 Hz) of each clip (22,050 Hz, all of the common loudness). The same clip number in the same take
 * stands in the same stretch of the saw's noise, whatever is compared.
 */
export function atPlace(clips: readonly Float64Array[], place: Place, take: number): readonly Float64Array[] {
  saw ??= sawNoise(SEED, NOISE_S, EAR_RATE_HZ, CLIP_LUFS);
  own ??= ownNoise();
  const places = draws(1000 + take);
  return clips.map((clip) => {
    const before = Math.round(BEFORE_S * EAR_RATE_HZ);
    const call = resample(clip, SAMPLE_RATE_HZ, EAR_RATE_HZ);
    const length = before + call.length + Math.round(AFTER_S * EAR_RATE_HZ);
    const from = Math.floor(places.even() * ((saw?.length ?? 0) - length));
    const gain = 10 ** (-place.overSawLu / 20);
    const outside = Float64Array.from({ length }, (_, i) => (call[i - before] ?? 0) + gain * (saw?.[from + i] ?? 0));
    const inside = place.isMuffed
      ? shaped(outside, EARMUFF, EAR_RATE_HZ).map((sample, i) => sample + (own?.[from + i] ?? 0))
      : outside;
    return amplify(inside, 10 ** ((EAR_LUFS - loudnessLufs(inside, EAR_RATE_HZ)) / 20));
  });
}

function ownNoise(): Float64Array {
  const draw = draws(SEED + 1);
  const white = Float64Array.from({ length: NOISE_S * EAR_RATE_HZ }, () => draw.normal());
  const low = shaped(white, OWN_NOISE, EAR_RATE_HZ);
  return amplify(low, 10 ** ((CLIP_LUFS + OWN_NOISE_LU - loudnessLufs(low, EAR_RATE_HZ)) / 20));
}
