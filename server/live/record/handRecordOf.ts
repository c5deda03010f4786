/** What a run's lines tell of its tilt hand: what was really said, when it was over in the ear, and how the tilt went. */
import type { HandRecord, TiltReading } from '../../core/hand/learn/handRecord.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { routineNamed } from '../../core/routine/routines.ts';
import { trueAtMs } from '../../core/run/engine/events.ts';
import type { RunSetup } from '../../core/run/engine/state.ts';
import { evenDeg } from '../../core/saw/handwheel.ts';
import { trueTiltDeg } from '../../core/saw/readout.ts';
import type { Phrases } from '../../core/words/phraseNames.ts';
import { phrases } from '../../core/words/phrases.ts';
import type { JournalEntry, UnreadableEntry } from '../../wire/kept/journalLine.ts';
import { PAGE_WHEEL_ID } from '../../wire/message/pageWheel.ts';

interface HandRun {
  readonly plan: Plan;
  readonly setup: RunSetup;
}

export function handRecordOf({ plan, setup }: HandRun, entries: Iterable<JournalEntry | UnreadableEntry>): HandRecord {
  const bevels: { -readonly [F in keyof HandRecord['bevels'][number]]: HandRecord['bevels'][number][F] }[] = [];
  const byId = new Map<string, (typeof bevels)[number]>();
  const heldAtMs: number[] = [];
  const tilts: TiltReading[] = [];
  let isCounted = false;
  let isPageWheel = false;
  let hearsAfterMs = 0;
  for (const entry of entries) {
    if (entry.kind === 'tilted') tilts.push({ atMs: trueAtMs(entry), deg: evenDeg(setup, entry.deg) });
    if (entry.kind === 'tilted' && entry.id === PAGE_WHEEL_ID) isPageWheel = true;
    if (entry.kind === 'moved') isCounted = true;
    if (entry.kind === 'heard-after') hearsAfterMs = entry.delayMs;
    if (isHold(entry, setup.phrases ?? phrases)) heldAtMs.push(entry.atMs);
    if (entry.kind === 'called' && entry.deg !== undefined) {
      const startsAtMs = entry.startsAtMs + hearsAfterMs;
      const toDeg = evenDeg(setup, trueTiltDeg(entry.deg, plan.saw.readoutTable));
      const bevel = { toDeg, startsAtMs, overMs: startsAtMs + entry.durationMs, isHeardOut: true };
      byId.set(entry.id, bevel);
      bevels.push(bevel);
    }
    const cut = entry.kind === 'cancelled' ? byId.get(entry.id) : undefined;
    const cutAtMs = entry.atMs + hearsAfterMs;
    if (cut !== undefined && cutAtMs < cut.overMs)
      Object.assign(cut, { overMs: Math.max(cut.startsAtMs, cutAtMs), isHeardOut: false });
  }
  return {
    bevels: bevels.sort((a, b) => a.startsAtMs - b.startsAtMs),
    heldAtMs: heldAtMs.sort((a, b) => a - b),
    tilts: tilts.sort((a, b) => a.atMs - b.atMs),
    turns: isCounted ? turnsIn(setup.routine) : 'at each call',
    degreesPerTurn: setup.degreesPerTurn,
    pageWheelTurnsPerS: isPageWheel ? setup.crew.turnsPerS : null,
  };
}

/** Without a count of travel every routine is one of turning to each call. */
function turnsIn(routine: RunSetup['routine']): HandRecord['turns'] {
  const { isFollowed, isTurnedEvenly } = routineNamed(routine);
  if (isFollowed) return 'by the display';
  return isTurnedEvenly ? 'evenly' : 'at each call';
}

/** Whatever was said that is no bevel, and is not only a word about the feed, means "hold the tilt". */
function isHold(entry: JournalEntry | UnreadableEntry, { easeFeed }: Phrases): boolean {
  if (entry.kind === 'called') return entry.deg === undefined && entry.text !== easeFeed;
  return entry.kind === 'stopped' || entry.kind === 'signal-lost' || entry.kind === 'ended';
}
