import { useEffect, useState } from 'preact/hooks';
import { fineSecondsText } from '../../../server/core/figures/durations.ts';
import { turnsPerSText } from '../../../server/core/figures/turns.ts';
import type { CrewMember } from '../../../server/wire/kept/crew.ts';
import { api, type JobSent } from '../../kit/link/api.ts';
import { ForgetHand } from '../../kit/parts/ForgetHand.tsx';
import { Choice } from './Choice.tsx';

/** No name: the job's own figures. */
const NOBODY = '';

/** Who turns the tilt, where something is kept of somebody: the plan is then made anew with that person's figures. */
export function TiltHand(props: {
  readonly job: JobSent;
  /** Settles when the plan is made, or refused. */
  readonly onChoose: (job: JobSent) => Promise<void>;
}) {
  const { job, onChoose } = props;
  const [crew, setCrew] = useState<readonly CrewMember[]>([]);
  /** Chosen, and its plan not made yet. */
  const [coming, setComing] = useState<string | null>(null);

  async function read(): Promise<void> {
    const asked = await api.crew();
    if (asked.ok) setCrew(asked.value);
  }
  useEffect(() => void read(), []);

  async function choose(name: string): Promise<void> {
    const { tiltHand: _, ...own } = job;
    setComing(name);
    await onChoose(name === NOBODY ? own : { ...own, tiltHand: name });
    setComing(null);
  }

  if (crew.length === 0) return null;
  const chosen = crew.find(({ name }) => name === job.tiltHand);
  const choices = crew.map((member) => [member.name, member.name, figuresOf(member)] as const);
  return (
    <section class="stack" aria-label="Tilt hand">
      <h2>Tilt hand</h2>
      <Choice<string>
        name="tilt-hand"
        legend="Who turns the tilt"
        choices={[[NOBODY, 'Anyone', 'Reaction and turning as the job says.'], ...choices]}
        chosen={coming ?? chosen?.name ?? NOBODY}
        onChoose={(name) => void choose(name)}
      />
      {chosen !== undefined && (
        <div class="row">
          <span>The plan above and the run are made with {chosen.name}’s figures.</span>
          <ForgetHand
            name={chosen.name}
            onForgotten={() => {
              void read();
              void choose(NOBODY);
            }}
          />
        </div>
      )}
    </section>
  );
}

function figuresOf({ reactionS, turnsPerS, runs }: CrewMember): string {
  const reaction = reactionS === null ? 'reaction as the job says' : `reaction ${fineSecondsText(reactionS)}`;
  const turning = turnsPerS === null ? 'turning as the job says' : turnsPerSText(turnsPerS);
  const learnt = `${reaction}, ${turning}, from ${runs.length === 1 ? 'one run' : `${runs.length} runs`}.`;
  return learnt.charAt(0).toUpperCase() + learnt.slice(1);
}
