import { useEffect, useState } from 'preact/hooks';
import { fineSecondsText } from '../../server/core/figures/durations.ts';
import { hundredthsFigure } from '../../server/core/figures/shares.ts';
import type { Learnt } from '../../server/core/hand/learn/learnHand.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { type HandOfRun, NAME_CHARS } from '../../server/wire/kept/crew.ts';
import { api, type Refusal } from '../kit/link/api.ts';
import { ForgetHand } from '../kit/parts/ForgetHand.tsx';
import { Note } from '../kit/parts/Note.tsx';
import { DoneShape } from '../kit/parts/noticeShapes.tsx';
import './handPanel.css';

/** What the run tells of whoever turned the wheel, and the question whether it may be kept. Only the console is told. */
export function HandPanel({ run, plan }: { readonly run: string; readonly plan: Plan }) {
  const [hand, setHand] = useState<HandOfRun | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  async function read(): Promise<void> {
    const asked = await api.handOf(run);
    if (asked.ok) setHand(asked.value);
    else if (asked.status !== 403) setRefusal(asked);
  }
  useEffect(() => void read(), [run]);

  if (refusal !== null) return <Note kind="alarm">{refusal.error.message}</Note>;
  if (hand === null) return null;
  const isLearnt = hand.reactionS.ok || hand.turnsPerS.ok;
  return (
    <section class="sheet stack hand-panel" aria-label="The tilt hand">
      <h2>The tilt hand</h2>
      {isLearnt ? <Found hand={hand} /> : <p class="soft">{messageOf(hand.reactionS)}</p>}
      {isLearnt && hand.keptFor === null && (
        <Keep run={run} name={plan.crew.tiltHand ?? ''} onKept={() => void read()} />
      )}
      {hand.keptFor !== null && (
        <div class="row">
          <p>
            <DoneShape /> Kept for <strong>{hand.keptFor}</strong>. The start page offers {hand.keptFor} as the tilt
            hand.
          </p>
          <ForgetHand name={hand.keptFor} onForgotten={() => void read()} />
        </div>
      )}
    </section>
  );
}

const messageOf = (learnt: Learnt): string => (learnt.ok ? '' : learnt.message);

function Found({ hand: { reactionS, turnsPerS, planned, calls } }: { readonly hand: HandOfRun }) {
  return (
    <>
      <dl class="hand-found">
        <dt>Reaction</dt>
        <dd>
          {reactionS.ok ? (
            <Figure
              learnt={reactionS}
              unit="s"
              what="from the end of the words to the wheel moving"
              planned={
                planned.reactionS === null
                  ? ''
                  : `Calls are timed for ${fineSecondsText(planned.reactionS)}: nine turns in ten begin by then.`
              }
            />
          ) : (
            <span class="soft">{reactionS.message}</span>
          )}
        </dd>
        <dt>Turning</dt>
        <dd>
          {turnsPerS.ok ? (
            <Figure
              learnt={turnsPerS}
              unit="turns a second"
              what="at full turning"
              planned={
                planned.turnsPerS === null
                  ? ''
                  : `Plans reckon with ${hundredthsFigure(planned.turnsPerS)}: nine turns in ten are as quick.`
              }
            />
          ) : (
            <span class="soft">{turnsPerS.message}</span>
          )}
        </dd>
      </dl>
      <p class="soft">{calls} bevels were called. Turns that answer no call clearly are left out.</p>
    </>
  );
}

function Figure(props: {
  readonly learnt: Extract<Learnt, { readonly ok: true }>;
  readonly unit: string;
  readonly what: string;
  readonly planned: string;
}) {
  const { median, error, turns } = props.learnt.estimate;
  return (
    <>
      <span class="hand-figure figures">{hundredthsFigure(median)}</span> {props.unit}{' '}
      <span class="soft">
        give or take {hundredthsFigure(Math.max(0.01, error))}, {props.what}, from {turns} turns. {props.planned}
      </span>
    </>
  );
}

function Keep(props: { readonly run: string; readonly name: string; readonly onKept: () => void }) {
  const [name, setName] = useState(props.name);
  const [isAgreed, setAgreed] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  async function keep(event: Event): Promise<void> {
    event.preventDefault();
    const asked = await api.keepHand({ name, run: props.run });
    setRefusal(asked.ok ? null : asked);
    if (asked.ok) props.onKept();
  }

  return (
    <form class="stack hand-keep" onSubmit={(event) => void keep(event)}>
      <p>
        Who turned the wheel? With that person’s yes these figures are kept here, on this machine, and plans can be made
        with them. Nothing is kept without it.
      </p>
      <div class="row">
        <label class="row">
          <span>Name or initials</span>
          <input
            type="text"
            value={name}
            maxLength={NAME_CHARS}
            autocomplete="off"
            onInput={(event) => {
              setName(event.currentTarget.value);
              setAgreed(false);
            }}
          />
        </label>
        <label class="row hand-yes">
          <input type="checkbox" checked={isAgreed} onChange={(event) => setAgreed(event.currentTarget.checked)} />
          <span>Yes, I agree that this is kept of me</span>
        </label>
        <button type="submit" class="button-strong" disabled={name.trim() === '' || !isAgreed}>
          Keep
        </button>
      </div>
      {refusal !== null && <Note kind="alarm">{refusal.error.message}</Note>}
    </form>
  );
}
