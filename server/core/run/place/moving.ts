/** Whether the wood moves. */
import type { Reckoning } from '../engine/state.ts';

/** Slower than this (0.12 m/min) the stock is standing. */
export const STANDING_MM_PER_MS = 0.002;

export const isMoving = ({ speedMmPerMs }: Reckoning): boolean =>
  speedMmPerMs !== null && speedMmPerMs >= STANDING_MM_PER_MS;
