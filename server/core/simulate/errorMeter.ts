import { tanDeg } from '../units.ts';

/** Gathers the error of the tilt over the wood that passes the blade for the first time. Changes in place. */
export interface ErrorMeter {
  sawn(wayMm: number, hadDeg: number, wantedDeg: number): void;
  readonly rmsDeg: number;
  readonly worstDeg: number;
  readonly worstGapMm: number;
}

export function errorMeter(sidingMm: number): ErrorMeter {
  let squares = 0;
  let lengthMm = 0;
  let worstDeg = 0;
  let worstGapMm = 0;
  return {
    sawn(wayMm, hadDeg, wantedDeg) {
      const errorDeg = Math.abs(hadDeg - wantedDeg);
      squares += errorDeg * errorDeg * wayMm;
      lengthMm += wayMm;
      worstDeg = Math.max(worstDeg, errorDeg);
      worstGapMm = Math.max(worstGapMm, sidingMm * Math.abs(tanDeg(hadDeg) - tanDeg(wantedDeg)));
    },
    get rmsDeg() {
      return lengthMm > 0 ? Math.sqrt(squares / lengthMm) : 0;
    },
    get worstDeg() {
      return worstDeg;
    },
    get worstGapMm() {
      return worstGapMm;
    },
  };
}
