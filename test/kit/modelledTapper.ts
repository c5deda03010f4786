import { mulberry32 } from '../../server/core/numeric/mulberry32.ts';

/**
 * A person who taps in answer. Reaction times are ex-Gaussian, as measured ones are (from memory: Luce, Response Times, 1986): a
 * normal part and an exponential tail. To sound about 160 ms (check values, 8), to light 30 to 40 ms more (see lateness.ts);
 * people differ by some 25 ms in both, and by 10 ms in how much slower their eye is. Seeded.
 */
export function modelledTapper(seed: number) {
  let drawn = 0;
  const random = (): number => mulberry32(seed, drawn++);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const own = 25 * normal();
  const eye = 35 + 10 * normal();
  const reaction = (meanMs: number): number => meanMs - 20 + 20 * normal() - 20 * Math.log(1 - random());
  return {
    toSound: (): number => reaction(160 + own),
    toLight: (): number => reaction(160 + own + eye),
  };
}
