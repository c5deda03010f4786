import type { RunEffect } from '../core/run/engine/events.ts';
import type { JournalEntry } from '../wire/kept/journalLine.ts';

/** What the record keeps of something that the run did. */
export function outcome(effect: RunEffect, atMs: number): JournalEntry[] {
  switch (effect.kind) {
    case 'say':
      return [{ kind: 'called', atMs, ...effect.call }];
    case 'cut-off':
      return [{ kind: 'cancelled', atMs, id: effect.id }];
    case 'tell':
      return [{ kind: 'told', atMs, ...effect.notice }];
    case 'missed':
      return [{ kind: 'missed', atMs, mark: effect.mark, reason: effect.reason }];
    case 'refuse':
      return [];
  }
}
