/** How this device is to sound: chosen by its person, kept with the device. What depends on the output is kept for each. */

import { LONGEST_DELAY_MS } from '../../../server/core/hearing/earLimits.ts';
import { makeStore, type Store } from '../link/store.ts';
import { recall, remember } from '../page/deviceMemory.ts';
import { HEARS_HERE, type Hears } from './hears.ts';

export type Output = 'wired' | 'wireless' | 'loudspeaker';
export const OUTPUTS: readonly Output[] = ['wired', 'wireless', 'loudspeaker'];

/** A level may be so much below what the device can do. */
export const LOWEST_DB = -24;
export const LEVEL_STEP_DB = 3;

/**
 * A wireless headset that nobody has measured is taken to be so late: an early call does little harm, a late one does.
 * Source: from memory; common music headsets lag by 150 to 250 ms.
 */
const UNMEASURED_WIRELESS_MS = 200;
/** Later than this a wire is worth fetching. */
export const RATHER_WIRED_MS = 100;

export interface Measured {
  /** Later than the browser knows. */
  readonly extraMs: number;
  readonly doubtMs: number;
}

interface OutputSettings {
  readonly measured: Measured | null;
  readonly levelDb: number;
  /** The level at which the words are only just understood beside the running saw; null until somebody has said it. */
  readonly understoodDb: number | null;
}

export interface EarSettings {
  readonly hears: Hears;
  readonly output: Output;
  readonly wired: OutputSettings;
  readonly wireless: OutputSettings;
  readonly loudspeaker: OutputSettings;
  /** Off until somebody wants them: beside the voice they are one thing more for the same ear. */
  readonly cues: boolean;
  /** dBA where the person stands; null where nobody knows. */
  readonly noiseDba: number | null;
  /** Rating of the ear protection worn, dB; 0 without. */
  readonly nrrDb: number;
}

export const NOISE_DBA = { least: 60, most: 130 } as const;
export const NRR_DB = { least: 0, most: 40 } as const;

const UNTOUCHED: OutputSettings = { measured: null, levelDb: 0, understoodDb: null };

/** The settings of the output in use. */
export const inUse = (settings: EarSettings): OutputSettings => settings[settings.output];

/** How much later than the browser knows this device is heard, as far as anybody knows. */
export function extraMs(settings: EarSettings): number {
  const { measured } = inUse(settings);
  return measured?.extraMs ?? (settings.output === 'wireless' ? UNMEASURED_WIRELESS_MS : 0);
}

/** `place`: who hears what is chosen for each page, all else is the device's. */
export function openEarSettings(place: 'wheel' | 'sawyer'): Store<EarSettings> {
  const isHears = (value: unknown): value is Hears => HEARS_HERE[place].some((each) => each === value);
  const settings = makeStore<EarSettings>({
    hears: recall(`ear.${place}.hears`, isHears) ?? HEARS_HERE[place][0],
    output: recall('ear.output', isOutput) ?? 'loudspeaker',
    wired: recall('ear.wired', isOutputSettings) ?? UNTOUCHED,
    wireless: recall('ear.wireless', isOutputSettings) ?? UNTOUCHED,
    loudspeaker: recall('ear.loudspeaker', isOutputSettings) ?? UNTOUCHED,
    cues: recall('ear.cues', isYesOrNo) ?? false,
    noiseDba: recall('ear.noise', isNoise) ?? null,
    nrrDb: recall('ear.nrr', isNrr) ?? 0,
  });
  settings.watch(({ hears, output, wired, wireless, loudspeaker, cues, noiseDba, nrrDb }) => {
    remember(`ear.${place}.hears`, hears);
    remember('ear.output', output);
    remember('ear.wired', wired);
    remember('ear.wireless', wireless);
    remember('ear.loudspeaker', loudspeaker);
    remember('ear.cues', cues);
    remember('ear.noise', noiseDba);
    remember('ear.nrr', nrrDb);
  });
  return settings;
}

/** Changes what is kept for the output in use. */
export function changeInUse(settings: Store<EarSettings>, patch: Partial<OutputSettings>): void {
  const now = settings.get();
  settings.change({ [now.output]: { ...inUse(now), ...patch } });
}

const isBetween = (value: unknown, least: number, most: number): value is number =>
  typeof value === 'number' && value >= least && value <= most;
const isYesOrNo = (value: unknown): value is boolean => typeof value === 'boolean';
const isOutput = (value: unknown): value is Output => OUTPUTS.some((each) => each === value);
const isNoise = (value: unknown): value is number | null =>
  value === null || isBetween(value, NOISE_DBA.least, NOISE_DBA.most);
const isNrr = (value: unknown): value is number => isBetween(value, NRR_DB.least, NRR_DB.most);
const isLevel = (value: unknown): value is number => isBetween(value, LOWEST_DB, 0);
const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;
const isMeasured = (value: unknown): value is Measured =>
  isRecord(value) && isBetween(value.extraMs, 0, LONGEST_DELAY_MS) && isBetween(value.doubtMs, 0, LONGEST_DELAY_MS);
const isOutputSettings = (value: unknown): value is OutputSettings =>
  isRecord(value) &&
  (value.measured === null || isMeasured(value.measured)) &&
  isLevel(value.levelDb) &&
  (value.understoodDb === null || isLevel(value.understoodDb));
