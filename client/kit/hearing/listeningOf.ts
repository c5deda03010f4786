/** What a run asks of the ear at this device, as far as the page can tell. */
import { ASKED_OVER_NOISE_DB, type exposureRange, JUST_UNDERSTOOD_DB } from '../../../server/core/hearing/exposure.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { Clip } from '../../../server/wire/message/messages.ts';
import { type EarSettings, inUse } from './earSettings.ts';
import { isWithoutBevels } from './hears.ts';

export function listeningOf(
  settings: EarSettings,
  { pace, marks }: Pick<Plan, 'pace' | 'marks'>,
  clips: readonly Pick<Clip, 'deg' | 'durationMs'>[],
): Parameters<typeof exposureRange>[0] {
  const { noiseDba, nrrDb } = settings;
  return {
    noiseDba,
    nrrDb,
    wordsOverDb: wordsOverDb(settings),
    runMin: pace.durationS / 60,
    wordsMin: isWithoutBevels(settings.hears) ? 0 : spokenMin(marks.length, clips),
  };
}

/** How far the words stand over the noise at the ear; what is asked of them where nobody has listened for it. */
function wordsOverDb(settings: EarSettings): number {
  const { levelDb, understoodDb } = inUse(settings);
  return understoodDb === null ? ASKED_OVER_NOISE_DB : JUST_UNDERSTOOD_DB + levelDb - understoodDb;
}

/** One call for each mark, or for each figure where there are more of those, each as long as they are on average. */
function spokenMin(marks: number, clips: readonly Pick<Clip, 'deg' | 'durationMs'>[]): number {
  const bevels = clips.filter(({ deg }) => deg !== undefined);
  const allMs = bevels.reduce((sum, { durationMs }) => sum + durationMs, 0);
  return bevels.length === 0 ? 0 : (Math.max(marks, bevels.length) * allMs) / bevels.length / 60_000;
}
