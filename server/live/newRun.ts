/** A plan becomes a run: its words are rendered, so that nothing is synthesised while wood moves, and it is kept. */
import { randomInt } from 'node:crypto';
import type { Problem } from '../core/errors.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Routine, RunMode } from '../core/routine/routine.ts';
import { withFewerWords } from '../core/run/call/shorterCall.ts';
import type { RunSetup } from '../core/run/engine/state.ts';
import { makeSetup } from '../core/run/makeSetup.ts';
import { phrasesOfRun } from '../core/words/phrases.ts';
import type { FeedChoice } from '../wire/kept/journalLine.ts';
import type { StoredRun } from '../wire/kept/storedRun.ts';
import { clipUrl } from '../wire/message/clipUrl.ts';
import type { Clip } from '../wire/message/messages.ts';
import type { RunVoicesPort, VoiceAsked } from './livePorts.ts';
import type { LiveRun } from './liveRun.ts';

export interface NewRun {
  readonly plan: Plan;
  readonly mode: RunMode;
  readonly routine: Routine;
  readonly feed: FeedChoice;
  /** The embedded one where it is left out. */
  readonly voice?: string;
}
type Opened =
  | { readonly ok: true; readonly run: LiveRun }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export function runMaker(voices: RunVoicesPort, keep: (stored: StoredRun) => LiveRun, nowMs: () => number) {
  return async ({ plan, mode, routine, feed, voice }: NewRun): Promise<Opened> => {
    const own = makeSetup(plan, mode, {}, routine);
    // A recorded voice has been asked for the yard's own form only.
    const silent = (await voices.kindOf(voice)) === 'recorded' ? own : withFewerWords(own, plan.voice);
    const { language } = plan.voice;
    const made = await spoken(voices, silent, voice === undefined ? { language } : { voice, language });
    if (!made.ok) return made;
    const { clips } = made;
    const durationsMs = Object.fromEntries(clips.map(({ text, durationMs }) => [text, durationMs]));
    const run = keep({
      run: newRunId(),
      title: plan.title,
      feed,
      plan,
      setup: { ...silent, durationsMs },
      clips,
      madeAtMs: nowMs(),
    });
    return { ok: true, run };
  };
}

type Spoken =
  | { readonly ok: true; readonly clips: readonly Clip[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

async function spoken(voices: RunVoicesPort, setup: RunSetup, asked: VoiceAsked): Promise<Spoken> {
  const said = phrasesOfRun(setup);
  const made = await voices.render(
    said.map(({ text }) => text),
    asked,
  );
  if (!made.ok) return made;
  const { voice, clips } = made;
  return {
    ok: true,
    clips: said.map((phrase, index) => {
      const clip = clips[index];
      if (clip === undefined) throw new Error(`"${phrase.text}" was not rendered`);
      const { key, durationMs } = clip;
      return { ...phrase, url: clipUrl(key), durationMs, ...(voice === undefined ? {} : { voice }) };
    }),
  };
}

/** Short enough to be read out, and without letters that are taken for one another. */
const newRunId = (): string => Array.from({ length: 8 }, () => RUN_LETTERS[randomInt(RUN_LETTERS.length)]).join('');
const RUN_LETTERS = 'abcdefghkmnpqrstwxyz23456789';
