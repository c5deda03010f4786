/**
 * What a run says besides bevels. Each begins with what is to be done, because the rest may drown. No phrase holds an order
 * that turns dangerous when its "not" drowns, but for "never back out", which comes last, after "wait until the blade stands".
 * No "set" (glue and saw teeth), no "opening" or "closing" (also said of bevels, and taken for each other).
 */
export const phrases = {
  stopFeed: 'stop feed, hold tilt',
  signalLost: 'stop feed, hold tilt, signal lost, switch off, wait until the blade stands, never back out',
  pulledBack: 'stop, wood still, hold tilt, switch off',
  easeFeed: 'feed slower',
  /** The wood behind the last mark is still to be sawn. */
  runDone: 'last bevel, hold tilt to the end',
  soundTest: 'sound test, one two three',
} as const;

export interface Phrase {
  readonly text: string;
  readonly deg?: number;
  /** Stands only where the phrase is this one mark's. */
  readonly mark?: number;
}

/**
 * Everything that a run may say, each text once: the marks' calls in the order of the marks, the shorter forms and the figures
 * between the marks where the routine has them, then the fixed phrases.
 */
export function phrasesOfRun({ stations, callTexts, shortTexts = [], steps = [] }: Sayable): readonly Phrase[] {
  const calls = new Map<string, Phrase>();
  const add = (text: string, deg: number, mark?: number): void => {
    const isOneMarks = mark !== undefined && !calls.has(text);
    calls.set(text, isOneMarks ? { text, deg, mark } : { text, deg });
  };
  const inOrder = stations.map((station, index) => ({ ...station, index })).sort((a, b) => a.mark - b.mark);
  for (const { mark, callDeg, index } of inOrder) add(callTexts[index] ?? '', callDeg, mark);
  for (const { callDeg, index } of inOrder) if (shortTexts[index] !== undefined) add(shortTexts[index], callDeg);
  for (const { text, callDeg } of steps) add(text, callDeg);
  return [...calls.values(), ...Object.values(phrases).map((text) => ({ text }))];
}

/** What of a run's setup its words come from. */
export interface Sayable {
  readonly stations: readonly { readonly mark: number; readonly callDeg: number }[];
  readonly callTexts: readonly string[];
  readonly shortTexts?: readonly string[];
  readonly steps?: readonly { readonly text: string; readonly callDeg: number }[];
}
