import { expect } from 'vitest';

/** The one tolerance helper: fails with both numbers and the difference in the message. `of` says what is compared. */
export function expectClose(actual: number, wanted: number, tolerance: number, of = 'value'): void {
  const off = Math.abs(actual - wanted);
  expect(off <= tolerance, `${of}: ${actual} should be ${wanted} within ${tolerance}; it is off by ${off}`).toBe(true);
}
