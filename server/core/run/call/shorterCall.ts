import type { CallWording } from '../../words/callText.ts';
import { shortestCall } from '../../words/shortestCall.ts';
import { spokenLengthS } from '../../words/spokenLength.ts';
import type { RunSetup } from '../engine/state.ts';

/** A form that saves less than this is not worth another way of hearing. */
const WORTH_S = 0.1;

/**
 * The setup with the shortest words there are for each bevel, in whatever number form, for the mark that comes too soon for the
 * yard's own form. For voices that can say anything: a yard's recorded voice would have to be recorded in two forms for it.
 */
export function withFewerWords(setup: RunSetup, { language }: Pick<CallWording, 'language'>): RunSetup {
  const shortestTexts = setup.stations.map(({ mark, callDeg }, index) => {
    const before = setup.shortTexts?.[index] ?? setup.callTexts[index] ?? '';
    const { text, lastsS } = shortestCall({ mark, deg: callDeg }, { language });
    return spokenLengthS(before, language) - lastsS >= WORTH_S ? text : before;
  });
  return { ...setup, shortestTexts };
}
