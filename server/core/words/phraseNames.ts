/** What a run says besides bevels; each language has its words for every one of them, and the yard may have its own. */
export const PHRASE_NAMES = ['stopFeed', 'signalLost', 'pulledBack', 'easeFeed', 'runDone', 'soundTest'] as const;
export type PhraseName = (typeof PHRASE_NAMES)[number];

export type Phrases = Readonly<Record<PhraseName, string>>;

/** Those that keep people whole: whoever puts other words in their place is to be told what must still be in them. */
export const ORDERS = ['stopFeed', 'signalLost', 'pulledBack'] as const satisfies readonly PhraseName[];
