import type { Language } from './voiceChoice.ts';

/** Pairs for a growing and a shrinking bevel, and words to stop the feed with, among which a recogniser may choose. */
interface Candidates {
  readonly turns: readonly { readonly more: string; readonly less: string }[];
  readonly stops: readonly string[];
}

/**
 * For the listening bench (`test/bench/voice`) to hear in noise; the language's `turns` and `stopFeed` are among them. The first of each list is what
 * is spoken today. "opening" and "closing" stand here to be measured only: an under bevel that grows closes.
 */
export const CANDIDATES: Readonly<Record<Language, Candidates>> = {
  en: {
    turns: [
      { more: 'more', less: 'less' },
      { more: 'growing', less: 'falling' },
      { more: 'steeper', less: 'flatter' },
      { more: 'wider', less: 'narrower' },
      { more: 'tilt more', less: 'ease back' },
      { more: 'away', less: 'toward square' },
      { more: 'opening', less: 'closing' },
    ],
    stops: ['stop feed', 'stop', 'stop stop', 'stop the wood', 'halt', 'whoa', 'stand by'],
  },
  de: {
    turns: [
      { more: 'mehr', less: 'weniger' },
      { more: 'steiler', less: 'flacher' },
      { more: 'wächst', less: 'sinkt' },
      { more: 'schräger', less: 'gerader' },
      { more: 'zunehmend', less: 'abnehmend' },
    ],
    stops: ['stopp Vorschub', 'stopp', 'stopp stopp', 'Vorschub stopp', 'Holz stopp', 'halt'],
  },
};
