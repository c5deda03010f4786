/** A piece that came out wrong: what was measured on it goes in, and how it can be saved comes out. */
import { useState } from 'preact/hooks';
import { lengthsFor, lengthText } from '../../../server/core/figures/lengths.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { SavedPiece } from '../../../server/core/sawn/savePiece.ts';
import { isPlaned, saveSentences, verdictSentence } from '../../../server/core/sawn/saveText.ts';
import { MM_PER_INCH } from '../../../server/core/units.ts';
import { PieceDrawing } from '../../drawing/PieceDrawing.tsx';
import { degFigure, lengthsIn } from '../../kit/figures/shownFigures.ts';
import { api, type JobSent, type Refusal } from '../../kit/link/api.ts';
import { DoneShape, WrongShape } from '../../kit/parts/noticeShapes.tsx';
import { Choice } from '../run/Choice.tsx';
import { asTable, MeasuredTable, MeasuredWrong } from './MeasuredTable.tsx';
import './sawTruth.css';

const HALVES = [
  ['outer', 'Outer wedge', 'The half that the planking lies on.'],
  ['inner', 'Inner wedge', 'The half inside the stack.'],
] as const;

export function SavePiece({ plan, job }: { readonly plan: Plan; readonly job: JobSent }) {
  const [text, setText] = useState('');
  const [half, setHalf] = useState<'outer' | 'inner'>('outer');
  const [errorDeg, setErrorDeg] = useState(0.5);
  const [saved, setSaved] = useState<SavedPiece | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isAsking, setAsking] = useState(false);

  async function ask(): Promise<void> {
    setAsking(true);
    const asked = await api.save(job, { measured: asTable(text), half, errorDeg });
    setAsking(false);
    setSaved(asked.ok ? asked.value : null);
    setRefusal(asked.ok ? null : asked);
  }

  return (
    <details class="sheet save-piece">
      <summary>
        <h2>Save a piece</h2>
        <span class="soft">It came out wrong? Measure it before you throw it away.</span>
      </summary>
      <div class="stack">
        <p>
          Measure the bevel of the sawn face off the flat, every{' '}
          {lengthText(plan.notation === 'mm' ? 75 : 3 * MM_PER_INCH, plan.notation)} or so, from the heel end to the
          head end: along the piece from mark 1’s line (negative below it), signed as the frame’s.
        </p>
        <Choice name="half" legend="Which half" choices={HALVES} chosen={half} onChoose={setHalf} />
        <MeasuredTable text={text} label="What was measured" plan={plan} onText={setText} />
        <label class="row">
          <span>Measured within, degrees</span>
          <input
            type="number"
            min={0.1}
            max={5}
            step={0.1}
            value={errorDeg}
            onInput={(event) => setErrorDeg(Math.min(5, Math.max(0.1, event.currentTarget.valueAsNumber || 0.5)))}
          />
        </label>
        <div class="row">
          <button
            type="button"
            class="button-strong"
            disabled={isAsking || text.trim() === ''}
            onClick={() => void ask()}
          >
            {isAsking ? 'Looking …' : 'Can it be saved?'}
          </button>
        </div>
        <div aria-live="polite" class="stack">
          {refusal !== null && <MeasuredWrong refusal={refusal} />}
          {saved !== null && <Verdict saved={saved} />}
        </div>
      </div>
    </details>
  );
}

function Verdict({ saved }: { readonly saved: SavedPiece }) {
  const lengths = lengthsFor(saved.notation);
  const isScrap = saved.verdict === 'scrap';
  return (
    <>
      <p class={`verdict verdict-${saved.verdict}`}>
        {isScrap ? <WrongShape /> : <DoneShape />} <span>{verdictSentence(saved, lengths)}</span>
      </p>
      {saveSentences(saved, lengths).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {saved.shift !== null && <PieceDrawing saved={saved} />}
      {!isScrap && <PlacesTable saved={saved} />}
    </>
  );
}

function PlacesTable({ saved }: { readonly saved: SavedPiece }) {
  const { along, fine } = lengthsIn(saved.notation);
  return (
    <div class="scroll">
      <table>
        <thead>
          <tr>
            <th scope="col">Mark</th>
            <th scope="col">Along piece</th>
            <th scope="col">Plane off</th>
            <th scope="col">At the</th>
            <th scope="col">Has</th>
            <th scope="col">Wants</th>
            <th scope="col">Edge left</th>
          </tr>
        </thead>
        <tbody>
          {saved.places.map((place) => (
            <tr key={place.mark}>
              <th scope="row">{place.mark}</th>
              <td>{along(place.alongMm)}</td>
              <td>{isPlaned(place) ? <strong>{fine(place.planeMm)}</strong> : 'nothing'}</td>
              <td>{isPlaned(place) ? `${place.edge} edge` : ''}</td>
              <td>{place.isMeasured ? `${degFigure(place.haveDeg, 1)}°` : 'not measured'}</td>
              <td>{degFigure(place.wantDeg, 1)}°</td>
              <td>{fine(place.leavesMm)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
