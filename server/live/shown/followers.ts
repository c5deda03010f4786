import type { Notice, RunEffect } from '../../core/run/engine/events.ts';
import type { RunView } from '../../wire/message/messages.ts';
import type { Follower } from '../../wire/message/runFollower.ts';

/** Those who are told what a run decides, in the order in which it does. */
export function createFollowers() {
  const followers = new Set<Follower>();
  const notice = (told: Notice): void => {
    for (const follower of followers) follower.notice?.(told);
  };
  return {
    add(follower: Follower): () => void {
      followers.add(follower);
      return () => void followers.delete(follower);
    },
    notice,
    view(view: RunView): void {
      for (const follower of followers) follower.view?.(view);
    },
    effect(effect: RunEffect): void {
      if (effect.kind === 'tell') notice(effect.notice);
      if (effect.kind === 'say') for (const follower of followers) follower.call?.(effect.call);
      if (effect.kind === 'cut-off') for (const follower of followers) follower.cancel?.(effect.id);
    },
  };
}
