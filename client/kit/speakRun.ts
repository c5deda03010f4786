/** Lets a loudspeaker speak a run: fetches its phrases, speaks each call when it is due, and tells the server whether it can be heard. */
import type { Call } from '../../server/core/run/events.ts';
import type { Role } from '../../server/wire/messages.ts';
import { deviceId } from './deviceMemory.ts';
import type { Loudspeaker } from './loudspeaker.ts';
import type { RunLink } from './runLink.ts';

const LOOK_AGAIN_MS = 2000;

export function speakRun(parts: {
  readonly link: RunLink;
  readonly loudspeaker: Loudspeaker;
  readonly role: Role;
  readonly label: string;
  readonly hears: (call: Call) => boolean;
}): void {
  const { link, loudspeaker } = parts;
  const id = deviceId();

  const tellHearing = (): void =>
    link.hearing({
      id,
      label: parts.label,
      role: parts.role,
      hearing: loudspeaker.state.get().hearing,
      delayMs: loudspeaker.delayMs(),
    });

  let told = '';
  const tellWhatIsNew = (): void => {
    const news = `${loudspeaker.state.get().hearing} ${loudspeaker.delayMs()}`;
    if (news !== told) tellHearing();
    told = news;
  };
  loudspeaker.state.watch(tellWhatIsNew);
  // The browser learns its output's delay only while it plays, and a headset that is plugged in changes it.
  setInterval(tellWhatIsNew, LOOK_AGAIN_MS);

  link.listen({
    joined: (clips) => {
      tellHearing();
      void loudspeaker.load(clips);
    },
    call: (call) => {
      if (!parts.hears(call)) return;
      const localMs = link.toLocalMs(call.startsAtMs) ?? performance.now();
      const whyNot = loudspeaker.say(call, localMs);
      if (whyNot !== null) link.unplayed(call.id, whyNot);
    },
    cancel: (callId) => loudspeaker.cutOff(callId),
  });

  // Joined before there was a loudspeaker.
  const { line, clips } = link.state.get();
  if (line === 'here') {
    tellHearing();
    void loudspeaker.load(clips);
  }

  let lastLine = line;
  link.state.watch(({ line, view }) => {
    if (line === lastLine) return;
    lastLine = line;
    if (line === 'gone') loudspeaker.cutOffAll();
    const inTheCut = view?.state === 'feeding' || view?.state === 'stopped' || view?.state === 'lost';
    loudspeaker.alarm(line === 'gone' && inTheCut);
  });
}
