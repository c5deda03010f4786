import { useState } from 'preact/hooks';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { JobSent } from '../../kit/link/api.ts';
import { Note } from '../../kit/parts/Note.tsx';

/** Which end leads rests on three facts that the job did not give; here the person gives them, and the job is planned anew. */
export function ConfirmWay(props: {
  readonly plan: Plan;
  readonly job: JobSent;
  readonly onConfirm: (job: JobSent) => void;
}) {
  const { plan } = props;
  const [side, setSide] = useState(plan.frame.side);
  const [mouldedFace, setFace] = useState(plan.frame.mouldedFace);
  const [leans, setLeans] = useState(plan.saw.leans);
  return (
    <Note kind="care" word="Not sure">
      Which end leads rests on defaults. Look at the frame and the saw, and confirm:
      <div class="row confirm-way" id="confirm-way">
        <Pick label="Side of the boat" choices={['port', 'starboard']} chosen={side} onPick={setSide} />
        <Pick label="Moulded face" choices={['forward', 'aft']} chosen={mouldedFace} onPick={setFace} />
        <Pick
          label="Blade’s top leans, at positive tilt"
          choices={['left', 'right']}
          chosen={leans}
          onPick={setLeans}
        />
        <button type="button" onClick={() => props.onConfirm(withWay(props.job, { side, mouldedFace, leans }))}>
          This is so
        </button>
      </div>
    </Note>
  );
}

function Pick<T extends string>(props: {
  readonly label: string;
  readonly choices: readonly T[];
  readonly chosen: T;
  readonly onPick: (chosen: T) => void;
}) {
  return (
    <label class="pick">
      <span>{props.label}</span>
      <select
        value={props.chosen}
        onChange={(event) => {
          const picked = props.choices.find((choice) => choice === event.currentTarget.value);
          if (picked !== undefined) props.onPick(picked);
        }}
      >
        {props.choices.map((choice) => (
          <option key={choice} value={choice}>
            {choice}
          </option>
        ))}
      </select>
    </label>
  );
}

function withWay(
  { job, files }: JobSent,
  way: { readonly side: string; readonly mouldedFace: string; readonly leans: string },
): JobSent {
  const stated = section(job);
  return {
    files,
    job: {
      ...stated,
      frame: { ...section(stated.frame), side: way.side, mouldedFace: way.mouldedFace },
      saw: { ...section(stated.saw), leans: way.leans },
    },
  };
}

const section = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null ? { ...(value as Record<string, unknown>) } : {};
