import type { RunState } from '../../core/run/engine/state.ts';
import { fold } from '../../core/run/fold.ts';
import type { Damage } from '../../wire/kept/damage.ts';
import type { StoredRun } from '../../wire/kept/storedRun.ts';
import type { JournalPort } from '../livePorts.ts';
import { type Beside, besideAfter, NOTHING_BESIDE } from './beside.ts';
import { createDamageFinder, type FoundDamage } from './damageFinder.ts';
import { eventsOf } from './eventsOf.ts';

interface ReadBack extends FoundDamage {
  readonly state: RunState;
  readonly last: { readonly seq: number; readonly atMs: number };
  readonly beside: Beside;
  readonly isChecked: boolean;
  readonly damage: Damage | null;
}

/** Where the journal of a run leads to, and what of it is damaged. */
export function readBack(journal: JournalPort, { run, setup, madeAtMs }: StoredRun): ReadBack {
  let last = { seq: 0, atMs: madeAtMs };
  let beside = NOTHING_BESIDE;
  const finder = createDamageFinder();
  const state = fold(
    setup,
    eventsOf(journal, run, (line) => {
      last = { seq: line.seq, atMs: line.atMs };
      finder.line(line);
      if (line.kind !== 'unreadable') beside = besideAfter(beside, line);
    }),
  );
  const { isChecked, endIsKnown } = journal.seal(run);
  return { state, last, beside, isChecked, ...finder.found(endIsKnown) };
}
