import { type ReadoutTable, shownDeg, toReadoutStep } from '../rip/readout.ts';

/** The readout's figure for a true tilt. */
export const callFor = (
  saw: { readonly readoutTable: ReadoutTable; readonly readoutDeg: number },
  tiltDeg: number,
): number => toReadoutStep(shownDeg(tiltDeg, saw.readoutTable), saw.readoutDeg);
