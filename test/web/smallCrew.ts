/** A crew in memory: one run that tells something, once it is kept. */
import type { CrewPort } from '../../server/web/webPorts.ts';
import { type CrewMember, crewKey } from '../../server/wire/kept/crew.ts';

export function smallCrew(run: string): CrewPort {
  let member: CrewMember | null = null;
  const reactionS = { median: 0.4, error: 0.03, spread: 0.2, turns: 11 };
  return {
    members: () => (member === null ? [] : [member]),
    handOf: (id) =>
      id === run
        ? {
            calls: 12,
            reactionS: { ok: true, estimate: reactionS },
            turnsPerS: { ok: false, code: 'too-few-turns', message: 'Too few turns.' },
            planned: { reactionS: 0.53, turnsPerS: null },
            isFinished: true,
            keptFor: member?.name ?? null,
          }
        : undefined,
    keep({ name, run: id }) {
      if (id !== run) return undefined;
      if (name === 'Nobody') return { ok: false, error: { code: 'nothing-learnt', message: 'Too few turns.' } };
      const found = { reactionS, turnsPerS: null };
      member = { name, reactionS: 0.53, turnsPerS: null, found, runs: [run], keptAtMs: 1 };
      return { ok: true, member };
    },
    forget(name) {
      if (member === null || crewKey(member.name) !== crewKey(name)) return false;
      member = null;
      return true;
    },
  };
}
