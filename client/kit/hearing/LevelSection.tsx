import { type Store, useStore } from '../link/store.ts';
import { DoneShape, EarShape } from '../parts/noticeShapes.tsx';
import type { Loudspeaker } from '../sound/loudspeaker.ts';
import { changeInUse, type EarSettings, inUse, LEVEL_STEP_DB, LOWEST_DB } from './earSettings.ts';

/** The words must stand well over what is only just understood, but need not shout. */
const ENOUGH_DB = 6;
const STEPS = -LOWEST_DB / LEVEL_STEP_DB + 1;

/** Set by ear with the test words, beside the running saw if possible. */
export function LevelSection(props: { readonly loudspeaker: Loudspeaker; readonly settings: Store<EarSettings> }) {
  const { loudspeaker, settings } = props;
  const { levelDb, understoodDb } = useStore(settings, inUse);
  const step = (levelDb - LOWEST_DB) / LEVEL_STEP_DB + 1;

  function change(by: number): void {
    const asked = Math.round(levelDb / LEVEL_STEP_DB + by) * LEVEL_STEP_DB;
    changeInUse(settings, { levelDb: Math.min(0, Math.max(LOWEST_DB, asked)) });
    void loudspeaker.playTest();
  }

  return (
    <section>
      <h3>Level</h3>
      <div class="level">
        <button type="button" aria-label="Quieter" disabled={step === 1} onClick={() => change(-1)}>
          −
        </button>
        <div class="level-bars" role="img" aria-label={`Level ${step} of ${STEPS}`}>
          {Array.from({ length: STEPS }, (_, i) => (
            <span
              key={i}
              class={`${i < step ? 'level-on' : ''}${isAt(understoodDb, i) ? ' level-understood' : ''}`}
              style={{ height: `${30 + (70 * (i + 1)) / STEPS}%` }}
            />
          ))}
        </div>
        <button type="button" aria-label="Louder" disabled={step === STEPS} onClick={() => change(1)}>
          +
        </button>
      </div>
      <div class="row">
        <button type="button" onClick={() => void loudspeaker.playTest()}>
          <EarShape /> Play the test words
        </button>
        <button type="button" onClick={() => changeInUse(settings, { understoodDb: levelDb })}>
          <DoneShape /> Only just understood
        </button>
      </div>
      <p class="soft">{adviceOn(levelDb, understoodDb)}</p>
    </section>
  );
}

const isAt = (db: number | null, i: number): boolean => db === LOWEST_DB + i * LEVEL_STEP_DB;

function adviceOn(levelDb: number, understoodDb: number | null): string {
  if (understoodDb === null)
    return 'With the saw running: down until only just understood, press that, then up two or three steps.';
  const overDb = levelDb - understoodDb;
  if (overDb >= ENOUGH_DB) return `${overDb} dB over what is only just understood.`;
  return levelDb === 0
    ? 'Too near to only just understood, and as loud as it goes: turn up the device or the headset, then listen again.'
    : 'Too near to only just understood: go up.';
}
