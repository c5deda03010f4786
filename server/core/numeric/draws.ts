import { mulberry32 } from './mulberry32.ts';

/** A sequence of numbers from one seed, drawn one after the other. The only thing in the core that changes in place. */
export interface Draws {
  /** Even in [0, 1). */
  even(): number;
  /** Normal, mean 0, standard deviation 1: Box and Muller, Ann. Math. Stat. 29 (1958), 610-611 (from memory). */
  normal(): number;
}

export function draws(seed: number): Draws {
  let index = 0;
  const even = (): number => {
    index += 1;
    return mulberry32(seed, index);
  };
  return { even, normal: () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even()) };
}
