/** The square at zero before a start: the reading that is seen with the blade square, ticked off, or a run made anew for it. */
import { useState } from 'preact/hooks';
import type { Plan } from '../../server/core/plan/plan.ts';
import { isSquare } from '../../server/core/plan/squareAtZero.ts';
import { squareSentence } from '../../server/core/text/sawCheckText.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { degFigure } from '../kit/figures/shownFigures.ts';
import { api, type Refusal } from '../kit/link/api.ts';
import { Note } from '../kit/parts/Note.tsx';
import { CareShape, DoneShape } from '../kit/parts/noticeShapes.tsx';

/** More than this is no residual: then the readout is set. */
const MOST_DEG = 5;

export function SquarePanel({ view, plan }: { readonly view: RunView; readonly plan: Plan }) {
  const [typed, setTyped] = useState('');
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isAsking, setAsking] = useState(false);
  const { square } = view;
  if (square === null || view.state !== 'ready') return null;
  const wanted = `${degFigure(square.wantedDeg, 1)}°`;
  const seen = typed.trim() === '' ? Number.NaN : Number(typed.replace(',', '.').replace('\u2212', '-'));
  const isFigure = Number.isFinite(seen) && Math.abs(seen) <= MOST_DEG;

  async function confirm(shownDeg: number): Promise<void> {
    setAsking(true);
    const asked = await api.square(view.run, shownDeg);
    setAsking(false);
    setRefusal(asked.ok ? null : asked);
  }
  async function makeAnew(): Promise<void> {
    setAsking(true);
    const asked = await api.squareAnew(view.run, seen);
    if (asked.ok) {
      const squared = await api.square(asked.value.run, seen);
      if (squared.ok) return location.assign(`/sawyer?run=${asked.value.run}`);
      setRefusal(squared);
    } else setRefusal(asked);
    setAsking(false);
  }

  if (square.seenDeg !== null)
    return (
      <section class="square square-done" id="square" aria-label="Square at zero">
        <DoneShape />{' '}
        <p>
          <strong>Square at zero:</strong> done. The readout shows {degFigure(square.seenDeg, 2)}°.
        </p>
      </section>
    );
  return (
    <section class="square" id="square" aria-label="Square at zero">
      <h2>
        <CareShape /> Square at zero first
      </h2>
      <p>{squareSentence({ squareShowsDeg: square.wantedDeg })}</p>
      <div class="square-row">
        <button
          type="button"
          class="button-strong square-button"
          disabled={isAsking}
          onClick={() => void confirm(square.wantedDeg)}
        >
          Blade square, readout {wanted}
        </button>
        <label>
          <span>It shows, degrees</span>
          <input inputMode="decimal" size={6} value={typed} onInput={(event) => setTyped(event.currentTarget.value)} />
        </label>
        {isFigure &&
          (isSquare(plan.saw, seen) ? (
            <button type="button" class="square-button" disabled={isAsking} onClick={() => void confirm(seen)}>
              Blade square, readout {degFigure(seen, 2)}°
            </button>
          ) : (
            <button type="button" class="square-button" disabled={isAsking} onClick={() => void makeAnew()}>
              The readout cannot be set: make the run again for {degFigure(seen, 2)}°
            </button>
          ))}
      </div>
      {typed.trim() !== '' && !isFigure && (
        <p class="soft">
          A figure in degrees, from −{MOST_DEG} to {MOST_DEG}: if it shows more, set the readout.
        </p>
      )}
      {refusal !== null && (
        <Note kind="alarm" word="Not taken">
          {refusal.error.message}
        </Note>
      )}
    </section>
  );
}
