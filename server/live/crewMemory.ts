/** The crew: what runs told of people's hands, kept where they agree, and forgotten again. */
import { type HandEstimate, nineInTen, pooled } from '../core/hand/learn/estimate.ts';
import type { Learnt, LearntHand } from '../core/hand/learn/learnHand.ts';
import { type CrewMember, crewKey, type HandOfRun, type KeepRequest, type KeptHand } from '../wire/kept/crew.ts';
import type { WireError } from '../wire/problem/wireError.ts';
import type { HandsPort } from './livePorts.ts';

interface CrewNeeds {
  readonly journal: HandsPort;
  readonly run: (run: string) => LearntFrom | undefined;
  /** Unix time in ms. */
  readonly nowMs: () => number;
  /** A person was forgotten: the runs that are open name them no more. */
  readonly onForgotten: (name: string) => void;
}
interface LearntFrom {
  readonly run: string;
  isFinished(): boolean;
  hand(): LearntHand;
}

type KeptOrNot = { readonly ok: true; readonly member: CrewMember } | { readonly ok: false; readonly error: WireError };

export function createCrew({ journal, run: runOf, nowMs, onForgotten }: CrewNeeds) {
  const members = (): readonly CrewMember[] => [...byPerson(journal.hands()).values()].map(memberOf);
  const keptIn = (run: string): KeptHand | undefined => journal.hands().find((hand) => hand.run === run);
  const runsOf = (name: string): readonly KeptHand[] => byPerson(journal.hands()).get(crewKey(name)) ?? [];

  function forget(name: string): boolean {
    const written = new Set(runsOf(name).map((hand) => hand.name));
    const isForgotten = journal.forgetHand(name);
    for (const each of written) onForgotten(each);
    return isForgotten;
  }

  return {
    members,
    member: (name: string): CrewMember | undefined => {
      const kept = runsOf(name);
      return kept.length === 0 ? undefined : memberOf(kept);
    },
    /** What a run tells of its tilt hand, and whether that is kept; undefined for an unknown run. */
    handOf(run: string): HandOfRun | undefined {
      const live = runOf(run);
      if (live === undefined) return undefined;
      const learnt = live.hand();
      const planned = {
        reactionS: planBy(estimateIn(learnt.reactionS), 'slow'),
        turnsPerS: planBy(estimateIn(learnt.turnsPerS), 'quick'),
      };
      return { ...learnt, planned, isFinished: live.isFinished(), keptFor: keptIn(live.run)?.name ?? null };
    },
    /** Keeps what a run told for this person, whoever it was kept for before; undefined for an unknown run. */
    keep({ name, run }: KeepRequest): KeptOrNot | undefined {
      const live = runOf(run);
      if (live === undefined) return undefined;
      if (!live.isFinished())
        return refusal('not-finished', 'this run is not over yet: finish it, then keep what it tells');
      const learnt = live.hand();
      const [reactionS, turnsPerS] = [estimateIn(learnt.reactionS), estimateIn(learnt.turnsPerS)];
      if (reactionS === null && turnsPerS === null) return refusal('nothing-learnt', whyNot(learnt.reactionS));
      const before = keptIn(live.run);
      // Kept for the wrong person, who has no other run: nothing of them is left.
      if (before !== undefined && crewKey(before.name) !== crewKey(name) && runsOf(before.name).length === 1)
        forget(before.name);
      const written = runsOf(name)[0]?.name ?? name;
      journal.keepHand({ run: live.run, name: written, keptAtMs: nowMs(), reactionS, turnsPerS });
      return { ok: true, member: memberOf(runsOf(name)) };
    },
    forget,
  };
}

function byPerson(hands: readonly KeptHand[]): ReadonlyMap<string, readonly KeptHand[]> {
  const people = new Map<string, KeptHand[]>();
  for (const hand of hands) {
    const key = crewKey(hand.name);
    people.set(key, [...(people.get(key) ?? []), hand]);
  }
  return people;
}

/** One person's kept runs (at least one) taken together. */
function memberOf(kept: readonly KeptHand[]): CrewMember {
  const [first, last] = [kept[0], kept.at(-1)];
  if (first === undefined || last === undefined) throw new Error('nobody is of the crew without a run');
  const found = {
    reactionS: pooled(kept.flatMap(({ reactionS }) => reactionS ?? [])),
    turnsPerS: pooled(kept.flatMap(({ turnsPerS }) => turnsPerS ?? [])),
  };
  return {
    name: first.name,
    reactionS: planBy(found.reactionS, 'slow'),
    turnsPerS: planBy(found.turnsPerS, 'quick'),
    found,
    runs: kept.map(({ run }) => run),
    keptAtMs: last.keptAtMs,
  };
}

/** Rounded to the thousandth: finer than anyone's hand. */
const planBy = (estimate: HandEstimate | null, way: 'slow' | 'quick'): number | null =>
  estimate === null ? null : Math.round(1000 * nineInTen(estimate, way)) / 1000;

const estimateIn = (learnt: Learnt): HandEstimate | null => (learnt.ok ? learnt.estimate : null);
const whyNot = (learnt: Learnt): string => (learnt.ok ? '' : learnt.message);
const refusal = (code: string, message: string): KeptOrNot => ({ ok: false, error: { code, message } });
