import type { RunState } from '../../core/run/engine/state.ts';
import { fold } from '../../core/run/fold.ts';
import type { Damage } from '../../wire/kept/damage.ts';
import type { StoredRun } from '../../wire/kept/storedRun.ts';
import type { JournalPort } from '../livePorts.ts';
import { createDamageFinder, type FoundDamage } from './damageFinder.ts';
import { eventsOf } from './eventsOf.ts';

interface ReadBack extends FoundDamage {
  readonly state: RunState;
  readonly last: { readonly seq: number; readonly atMs: number };
  /** What the readout showed with the blade square, if somebody has said it. */
  readonly seenDeg: number | null;
  readonly isChecked: boolean;
  readonly damage: Damage | null;
}

/** Where the journal of a run leads to, and what of it is damaged. */
export function readBack(journal: JournalPort, { run, setup, madeAtMs }: StoredRun): ReadBack {
  let last = { seq: 0, atMs: madeAtMs };
  let seenDeg: number | null = null;
  const finder = createDamageFinder();
  const state = fold(
    setup,
    eventsOf(journal, run, (line) => {
      last = { seq: line.seq, atMs: line.atMs };
      finder.line(line);
      if (line.kind === 'squared') seenDeg = line.seenDeg;
    }),
  );
  const { isChecked, endIsKnown } = journal.seal(run);
  return { state, last, seenDeg, isChecked, ...finder.found(endIsKnown) };
}
