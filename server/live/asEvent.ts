/** What comes in from pages and devices, as events of the engine. */
import type { RunEvent } from '../core/run/events.ts';
import type { FeedFrame } from '../wire/feedFrame.ts';
import type { Command } from '../wire/messages.ts';

export function frameEvent(frame: FeedFrame, atMs: number): RunEvent {
  const id = frame.id === undefined ? {} : { id: frame.id };
  switch (frame.kind) {
    case 'pedal':
      return { kind: 'pressed', atMs, gesture: frame.gesture ?? 'next', ...id };
    case 'mark':
      return { kind: 'scanned', atMs, mark: frame.mark, offsetMm: frame.offsetMm ?? 0, ...id };
    case 'travel':
      return { kind: 'moved', atMs, mm: frame.mm, ...id };
    case 'tilt':
      return { kind: 'tilted', atMs, deg: frame.deg, ...id };
  }
}

export function commandEvent(command: Command, atMs: number): RunEvent {
  switch (command) {
    case 'start':
      return { kind: 'started', atMs, withoutSound: false };
    case 'start-without-sound':
      return { kind: 'started', atMs, withoutSound: true };
    case 'stop-feed':
      return { kind: 'stopped', atMs, by: 'page' };
    case 'resume':
      return { kind: 'resumed', atMs };
    case 'finish':
      return { kind: 'ended', atMs };
  }
}
