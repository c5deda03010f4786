import { expect, test } from 'vitest';
import { BAND_RESAW_DBA, LOUDEST_SIGNAL_DBA, protectorDb } from '../../server/core/hearing/exposure.ts';
import { allowedMin, dosePercent, NIOSH, OSHA } from '../../server/core/hearing/noiseRules.ts';
import { expectClose } from '../kit/close.ts';

/** Source: OSHA 29 CFR 1910.95 table G-16 (read). The table rounds what its own formula gives: 2 % at most (derived). */
test.each([
  [90, 8],
  [92, 6],
  [95, 4],
  [97, 3],
  [100, 2],
  [102, 1.5],
  [105, 1],
  [110, 0.5],
  [115, 0.25],
])('OSHA G-16: %d dBA is allowed for %d h', (dba, hours) => {
  expectClose(allowedMin(OSHA, dba), hours * 60, 0.02 * hours * 60, 'min');
});

/** Source: OSHA 29 CFR 1910.95 appendix A, table G-16A: T = 8 / 2^((L - 90) / 5) h (second-hand), some of its rows (from memory). */
test.each([
  [80, 32],
  [85, 16],
  [91, 7.0],
  [93, 5.3],
  [98, 2.6],
  [103, 1.3],
  [108, 0.66],
])('OSHA G-16A: %d dBA for %d h, to the digits of the table', (dba, hours) => {
  expectClose(allowedMin(OSHA, dba) / 60, hours, hours < 1 ? 0.005 : 0.05, 'h');
});

/** Source: NIOSH 98-126, T = 480 / 2^((L - 85) / 3) min, and its figures (read). */
test.each([
  [85, 480],
  [88, 240],
  [91, 120],
  [94, 60],
  [97, 30],
  [100, 15],
])('NIOSH: %d dBA is allowed for %d min', (dba, minutes) => {
  expectClose(allowedMin(NIOSH, dba), minutes, 1e-9, 'min');
});

/** Source: 29 CFR 1910.95 (c)(1) (from memory): the action level is 85 dBA over 8 h, or equivalently a dose of fifty percent. */
test('eight hours of 85 dBA are half of the OSHA dose and all of the NIOSH one', () => {
  const day = [{ dba: 85, minutes: 480 }];
  expectClose(dosePercent(OSHA, day), 50, 1e-9, 'OSHA %');
  expectClose(dosePercent(NIOSH, day), 100, 1e-9, 'NIOSH %');
});

/**
 * Source: 29 CFR 1910.95 table G-16, footnote 1 (second-hand): different noises are weighed by the sum of C/T. Two hours each of
 * 95 and 97 dBA make 2/4 + 2/3 = 1.167 (derived; with the formula's 3.03 h, 1.160).
 */
test('different noises of a day are added by their shares', () => {
  const day = [
    { dba: 95, minutes: 120 },
    { dba: 97, minutes: 120 },
  ];
  expectClose(dosePercent(OSHA, day), 116.7, 1, '%');
});

/** Source: OSHA table G-16 ends at 115 dBA (read); NIOSH's 115 dBA ceiling (second-hand: read in a summary of the 1996 criteria). */
test('above 115 dBA no time is allowed', () => {
  expect([allowedMin(OSHA, 115.1), allowedMin(NIOSH, 115.1)]).toEqual([0, 0]);
  expect(dosePercent(OSHA, [{ dba: 116, minutes: 0.1 }])).toBe(Number.POSITIVE_INFINITY);
  expect(dosePercent(OSHA, [{ dba: 116, minutes: 0 }])).toBe(0);
});

/** Source: the worked example of the OSHA method with its safety factor (second-hand): 100 dBA under NRR 25 leaves 91 dBA. */
test('a protector of NRR 25 takes 9 dB off 100 dBA', () => {
  expect(100 - protectorDb(25)).toBe(91);
  expect(protectorDb(5)).toBe(0);
});

/** Sources: HSE on band re-saws, 90-105 dB (read); ISO 7731:2003, never above 118 dBA (read). */
test('the saw and the loudest signal are as published', () => {
  expect([BAND_RESAW_DBA.least, BAND_RESAW_DBA.most, LOUDEST_SIGNAL_DBA]).toEqual([90, 105, 118]);
});
