/** What comes in from pages and devices, as events of the engine. */
import type { RunEvent } from '../../core/run/engine/events.ts';
import type { ReadingFrame } from '../../wire/message/feedFrame.ts';
import type { Command } from '../../wire/message/messages.ts';

export function frameEvent(frame: ReadingFrame, atMs: number): RunEvent {
  const own = {
    ...(frame.id === undefined ? {} : { id: frame.id }),
    ...(frame.ageMs === undefined ? {} : { ageMs: frame.ageMs }),
  };
  switch (frame.kind) {
    case 'pedal':
      return { kind: 'pressed', atMs, gesture: frame.gesture ?? 'next', ...own };
    case 'mark':
      return { kind: 'scanned', atMs, mark: frame.mark, offsetMm: frame.offsetMm ?? 0, ...own };
    case 'travel':
      return { kind: 'moved', atMs, mm: frame.mm, ...own };
    case 'tilt':
      return { kind: 'tilted', atMs, deg: frame.deg, ...own };
  }
}

/** A person's stop, which wins over everything. */
export const isStop = (event: RunEvent): boolean =>
  event.kind === 'stopped' || (event.kind === 'pressed' && event.gesture === 'stop');

type Square = 'confirmed' | 'not confirmed';

/** `square`: what the record says of the square at zero; not asked for in a rehearsal. */
export function commandEvent(command: Command, atMs: number, square?: Square): RunEvent {
  const squared = square === undefined ? {} : { square };
  switch (command) {
    case 'start':
      return { kind: 'started', atMs, withoutSound: false, ...squared };
    case 'start-without-sound':
      return { kind: 'started', atMs, withoutSound: true, ...squared };
    case 'stop-feed':
      return { kind: 'stopped', atMs, by: 'page' };
    case 'resume':
      return { kind: 'resumed', atMs };
    case 'resume-without-sound':
      return { kind: 'resumed', atMs, withoutSound: true };
    case 'finish':
      return { kind: 'ended', atMs };
  }
}
