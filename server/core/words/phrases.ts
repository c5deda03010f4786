import type { Plan } from '../plan.ts';
import { callText } from './callText.ts';

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

/** Everything that a run of this plan may say, each text once: the marks' calls in the order of the marks, then the fixed phrases. */
export function phrasesOfRun(plan: Pick<Plan, 'marks' | 'voice'>): readonly Phrase[] {
  const calls = new Map<string, Phrase>();
  for (const { mark, callDeg: deg } of plan.marks) {
    const text = callText({ mark, deg }, plan.voice);
    calls.set(text, calls.has(text) ? { text, deg } : { text, deg, mark });
  }
  return [...calls.values(), ...Object.values(phrases).map((text) => ({ text }))];
}
