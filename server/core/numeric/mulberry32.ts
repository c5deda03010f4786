/**
 * Mulberry32: 32 bits of state, period 2^32, good enough to make a drawn run look alive; nothing of the work rests on it.
 * Source (read): Tommy Ettinger, 2017, public domain, https://gist.github.com/tommyettinger/46a874533244883189143505d203312c
 */

const STRIDE = 0x6d2b79f5;

/** The `index`th number (from 0) in [0, 1) of the sequence that `seed` starts; exact, so equal on every machine. */
export function mulberry32(seed: number, index: number): number {
  const state = (seed + Math.imul(STRIDE, index + 1)) | 0;
  const mixed = Math.imul(state ^ (state >>> 15), state | 1);
  const again = mixed ^ (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61));
  return ((again ^ (again >>> 14)) >>> 0) / 2 ** 32;
}
