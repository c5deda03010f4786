/** What a run asks of an ear: the saw's noise that comes through the protector, and the words that stand over it. */
import { dosePercent, NIOSH, type NoiseRule, OSHA } from './noiseRules.ts';

/** What a band re-saw gives out at the people beside it, in dBA. Source: HSE noise figures for woodworking (check values, 9). */
export const BAND_RESAW_DBA = { least: 90, most: 105 } as const;

/** No signal may be louder at the ear. Source: ISO 7731:2003. */
export const LOUDEST_SIGNAL_DBA = 118;

/**
 * How far the words stand over the noise where they are only just understood, in dB. At +5 dB the listening bench's recogniser
 * understands nearly all; people do with less, so that this makes the words rather too loud than too quiet here.
 */
export const JUST_UNDERSTOOD_DB = 5;
/** Where nobody has said which level is just understood: what the standards ask of critical speech (NUREG-0700, MIL-STD-1472E). */
export const ASKED_OVER_NOISE_DB = 20;

/**
 * What a protector takes off in a shop, in dB, of its labelled rating. Source: OSHA Technical Manual, (NRR - 7) / 2 for noise in
 * dBA: 7 dB because the rating is for dBC (29 CFR 1910.95 appendix B), half because labels promise more than people get.
 */
export const protectorDb = (nrrDb: number): number => Math.max(0, (nrrDb - 7) / 2);

export interface Listening {
  /** Where the person stands, before any protection. */
  readonly noiseDba: number;
  /** Rating of the ear protection worn, dB; 0 without. */
  readonly nrrDb: number;
  /** How far the words stand over the noise at the ear, dB. */
  readonly wordsOverDb: number;
  readonly runMin: number;
  /** Of the run, while words are spoken. */
  readonly wordsMin: number;
}

/**
 * `fine`: less than half of the day by both rules. `half`: more than that of one. `past`: more than a day's allowance of one.
 * `too loud`: at no time allowed, or the words above what a signal may be.
 */
type ExposureVerdict = 'fine' | 'half' | 'past' | 'too loud';

export interface Exposure {
  readonly noiseAtEarDba: number;
  /** Words and noise together, while words are spoken. */
  readonly wordsAtEarDba: number;
  /** Of a day's allowance, this run alone; Infinity where no time at all is allowed. */
  readonly oshaPercent: number;
  readonly nioshPercent: number;
  /** The noise alone, without the words, by the stricter rule: tells whether quieter words would help. */
  readonly noisePercent: number;
  /** Whole runs like this that the stricter rule allows in a day; Infinity where nothing counts. */
  readonly runsADay: number;
  readonly verdict: ExposureVerdict;
}

/** Where nobody knows the noise: the least and the most that such saws make of it. The same twice where it is known. */
export function exposureRange(listening: Omit<Listening, 'noiseDba'> & { readonly noiseDba: number | null }): {
  readonly least: Exposure;
  readonly most: Exposure;
} {
  const at = (noiseDba: number): Exposure => exposureOf({ ...listening, noiseDba });
  const { noiseDba } = listening;
  return { least: at(noiseDba ?? BAND_RESAW_DBA.least), most: at(noiseDba ?? BAND_RESAW_DBA.most) };
}

/** Sounds that do not know of each other add by their energy. */
const together = (one: number, other: number): number => 10 * Math.log10(10 ** (one / 10) + 10 ** (other / 10));

export function exposureOf({ noiseDba, nrrDb, wordsOverDb, runMin, wordsMin }: Listening): Exposure {
  const noiseAtEarDba = noiseDba - protectorDb(nrrDb);
  const wordsAlone = noiseAtEarDba + wordsOverDb;
  const wordsAtEarDba = together(noiseAtEarDba, wordsAlone);
  const spokenMin = Math.min(wordsMin, runMin);
  const stretches = [
    { dba: noiseAtEarDba, minutes: runMin - spokenMin },
    { dba: wordsAtEarDba, minutes: spokenMin },
  ];
  const percent = (rule: NoiseRule): number => dosePercent(rule, stretches);
  const [oshaPercent, nioshPercent] = [percent(OSHA), percent(NIOSH)];
  const most = Math.max(oshaPercent, nioshPercent);
  const noiseOnly = [{ dba: noiseAtEarDba, minutes: runMin }];
  const isTooLoud = most === Number.POSITIVE_INFINITY || wordsAlone > LOUDEST_SIGNAL_DBA;
  return {
    noiseAtEarDba,
    wordsAtEarDba,
    oshaPercent,
    nioshPercent,
    noisePercent: Math.max(dosePercent(OSHA, noiseOnly), dosePercent(NIOSH, noiseOnly)),
    runsADay: most === 0 ? Number.POSITIVE_INFINITY : Math.floor(100 / most),
    verdict: isTooLoud ? 'too loud' : most > 100 ? 'past' : most > 50 ? 'half' : 'fine',
  };
}
