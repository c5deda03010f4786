/** After damage to the record: a person looks, and says which mark is at the blade; only then the run can be resumed. */
import { useState } from 'preact/hooks';
import type { Station } from '../../server/core/run/engine/state.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { api, type Refusal } from '../kit/link/api.ts';
import { Note } from '../kit/parts/Note.tsx';
import { CareShape } from '../kit/parts/noticeShapes.tsx';

export function AtBladePanel({ view, stations }: { readonly view: RunView; readonly stations: readonly Station[] }) {
  const [chosen, setChosen] = useState('');
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  if (view.isPlaceKnown || view.state === 'finished') return null;
  const mark = chosen === '' ? null : Number(chosen);

  async function say(): Promise<void> {
    if (mark === null) return;
    const asked = await api.atBlade(view.run, mark);
    setRefusal(asked.ok ? null : asked);
  }

  return (
    <section class="square" id="at-blade" aria-label="Which mark is at the blade">
      <h2>
        <CareShape /> Which mark is at the blade?
      </h2>
      <p>
        The record does not tell. Look at the stock: choose the last mark that has reached the blade. A wrong mark means
        a wrong bevel.
      </p>
      <div class="square-row">
        <label>
          <span>Last mark at or past the blade</span>
          <select value={chosen} onChange={(event) => setChosen(event.currentTarget.value)}>
            <option value="">Choose</option>
            <option value="0">none yet, before the first</option>
            {stations.map((station) => (
              <option key={station.mark} value={station.mark}>
                mark {station.mark}
              </option>
            ))}
          </select>
        </label>
        <button type="button" class="button-strong square-button" disabled={mark === null} onClick={() => void say()}>
          {mark === null ? 'Choose a mark' : mark === 0 ? 'Before the first mark' : `Mark ${mark} is the last`}
        </button>
      </div>
      {refusal !== null && (
        <Note kind="alarm" word="Not taken">
          {refusal.error.message}
        </Note>
      )}
    </section>
  );
}
