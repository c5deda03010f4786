/** Lets a loudspeaker speak a run: fetches its phrases, speaks each call when it is due, and tells the server whether it can be heard. */
import type { Call } from '../../../server/core/run/engine/events.ts';
import { phrasesFor } from '../../../server/core/words/phrases.ts';
import type { Role } from '../../../server/wire/message/messages.ts';
import type { CueName } from '../hearing/cues.ts';
import { CueWatch } from '../hearing/cueWatch.ts';
import { type EarSettings, extraMs, inUse } from '../hearing/earSettings.ts';
import { HEARS_WORDS, isHeardBy, isWithoutBevels } from '../hearing/hears.ts';
import type { RunLink } from '../link/runLink.ts';
import type { Store } from '../link/store.ts';
import { deviceId } from '../page/deviceMemory.ts';
import type { Loudspeaker } from './loudspeaker.ts';

export function speakRun(parts: {
  readonly link: RunLink;
  readonly loudspeaker: Loudspeaker;
  readonly settings: Store<EarSettings>;
  readonly role: Role;
  readonly label: string;
}): void {
  const { link, loudspeaker, settings } = parts;
  const id = deviceId();

  const listener = () => {
    const { hearing, delayMs } = loudspeaker.state.get();
    const { hears } = settings.get();
    const label = `${parts.label}, ${HEARS_WORDS[hears].word.toLowerCase()}`;
    return { id, label, role: parts.role, hearing, delayMs, isWithoutBevels: isWithoutBevels(hears) };
  };
  let told = '';
  function tellHearing(): void {
    const news = listener();
    told = JSON.stringify(news);
    link.hearing(news);
  }
  const tellWhatIsNew = (): void => {
    if (JSON.stringify(listener()) !== told) tellHearing();
  };
  loudspeaker.state.watch(tellWhatIsNew);

  function sound(now: EarSettings): void {
    loudspeaker.setLevelDb(inUse(now).levelDb);
    loudspeaker.setExtraMs(extraMs(now));
    tellWhatIsNew();
  }
  sound(settings.get());
  settings.watch(sound);

  const { plan: planNow } = link.state.get();
  let cues = planNow === null ? null : new CueWatch(planNow.leads);

  function join(speaking: Call | null): void {
    tellHearing();
    if (speaking !== null) catchUp(speaking);
    const { plan, clips } = link.state.get();
    if (plan === null) return;
    cues ??= new CueWatch(plan.leads);
    void loudspeaker.load(clips, phrasesFor(plan.voice).soundTest);
  }

  function say(call: Call): void {
    if (!isHeardBy(settings.get().hears, call)) return;
    const localMs = link.toLocalMs(call.startsAtMs) ?? performance.now();
    const whyNot = loudspeaker.say(call, localMs);
    if (whyNot !== null) link.unplayed(call.id, whyNot);
    else cues?.called(call, localMs);
  }

  /** Came in the middle of something. A figure is begun in time or not at all; an order is right however late it comes. */
  function catchUp(call: Call): void {
    if (loudspeaker.isSpeaking(call.id) || loudspeaker.state.get().hearing !== 'confirmed') return;
    if (call.deg === undefined && call.to === 'everyone') loudspeaker.say(call, performance.now());
    else if (link.toLocalMs(call.startsAtMs) !== null) say(call);
    // The server's clock is not known yet, and so not whether it is late.
    else if (isHeardBy(settings.get().hears, call)) link.unplayed(call.id, 'it came in the middle of it');
  }

  link.listen({
    joined: (_clips, speaking) => join(speaking),
    call: say,
    cancel: (callId) => {
      loudspeaker.cutOff(callId);
      cues?.tookBack(callId);
    },
    notice: ({ code }) => {
      if (code === 'too-soon') cues?.refused(performance.now());
    },
    guide: (guide) => {
      const cue = cues?.told(guide, performance.now()) ?? null;
      if (cue !== null && isWanted(cue, settings.get())) loudspeaker.cue(cue);
    },
  });

  // Joined before there was a loudspeaker.
  const { line } = link.state.get();
  if (line === 'here') join(null);

  let lastLine = line;
  link.state.watch(({ line, view }) => {
    if (line === lastLine) return;
    lastLine = line;
    if (line === 'gone') loudspeaker.cutOffAll();
    const inTheCut = view?.state === 'feeding' || view?.state === 'stopped' || view?.state === 'lost';
    loudspeaker.alarm(line === 'gone' && inTheCut);
  });
}

/** A refusal is for everyone. Who has asked for the marks hears them; the other cues are for whoever turns the wheel. */
function isWanted(cue: CueName, { hears, cues }: EarSettings): boolean {
  if (cue === 'too soon') return true;
  if (hears === 'stops and marks') return cue === 'reached' || (cue === 'coming up' && cues);
  return cues && hears !== 'stops';
}
