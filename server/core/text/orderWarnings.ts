import type { Warning } from '../warning.ts';
import { grammarOf } from '../words/languages.ts';
import { ORDERS } from '../words/phraseNames.ts';
import type { VoiceChoice } from '../words/voiceChoice.ts';

/** What each order must make people do, whatever its words: no program can hear whether they do. */
const MEANS: Readonly<Record<(typeof ORDERS)[number], string>> = {
  stopFeed: 'stop the feed and hold the tilt',
  signalLost: 'stop the feed, hold the tilt, switch off, wait until the blade stands and never back out',
  pulledBack: 'stop the feed, keep the wood still, hold the tilt, switch off',
};

/** One for each order that the yard says in words of its own. */
export function orderWarnings({ language, words = {} }: VoiceChoice): readonly Warning[] {
  const { phrases } = grammarOf(language);
  return ORDERS.filter((name) => words[name] !== undefined && words[name] !== phrases[name]).map((name) => ({
    code: 'own-order',
    message:
      `The order "${phrases[name]}" is said in the yard's own words: "${words[name]}". Everyone at the saw must know them, ` +
      `and they must mean: ${MEANS[name]}. Say them to the crew before the run.`,
  }));
}
