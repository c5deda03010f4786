import { useEffect, useState } from 'preact/hooks';
import type { PedalDuty } from '../../server/core/pedal/footKeptDown.ts';
import { DEFAULT_KEYS, DUTIES, forgetKey, keyName, type PedalKeys, teach } from '../kit/pedal/pedalKeys.ts';

const DUTY_WORDS: Readonly<Record<PedalDuty, readonly [string, string]>> = {
  press: ['Press', 'the next mark is at the blade; kept down: stop feed'],
  again: ['Again', 'says the last call once more'],
  back: ['Back', 'undoes the last press'],
  resume: ['Start, resume', 'the feed goes on'],
  stop: ['Stop feed', 'and hold the tilt'],
};

/** Which keys the pedals type. To teach one: choose what it is for, then press it. */
export function PedalPanel(props: {
  readonly keys: PedalKeys;
  readonly onKeys: (keys: PedalKeys) => void;
  readonly onLearning: (learning: boolean) => void;
}) {
  const { keys, onKeys, onLearning } = props;
  const [learning, setLearning] = useState<PedalDuty | null>(null);

  useEffect(() => {
    onLearning(learning !== null);
    if (learning === null) return;
    const learn = (event: KeyboardEvent): void => {
      event.preventDefault();
      event.stopPropagation();
      if (event.code !== '' && event.code !== 'Escape') onKeys(teach(keys, learning, event.code));
      setLearning(null);
    };
    window.addEventListener('keydown', learn, { capture: true, once: true });
    return () => window.removeEventListener('keydown', learn, { capture: true });
  }, [learning]);

  return (
    <section class="panel">
      <h2>Pedal and keys</h2>
      <p class="soft">
        A USB pedal is a keyboard. Teach it: choose a line, then press it. A scanner that types needs no teaching.
      </p>
      <dl class="keys">
        {DUTIES.map((duty) => (
          <div key={duty}>
            <dt>
              <strong>{DUTY_WORDS[duty][0]}</strong> <span class="soft">{DUTY_WORDS[duty][1]}</span>
            </dt>
            <dd class="row">
              {keys[duty].map((code) => (
                <button
                  key={code}
                  type="button"
                  class="key"
                  disabled={code === 'Escape'}
                  aria-label={`Forget the key ${keyName(code)}`}
                  onClick={() => onKeys(forgetKey(keys, duty, code))}
                >
                  {keyName(code)}
                  {code !== 'Escape' && <span aria-hidden="true">×</span>}
                </button>
              ))}
              <button type="button" class="key" aria-pressed={learning === duty} onClick={() => setLearning(duty)}>
                {learning === duty ? 'Press it now' : 'Teach'}
              </button>
            </dd>
          </div>
        ))}
      </dl>
      {DUTIES.some((duty) => keys[duty].includes('KeyB') && duty === 'press') && (
        <p class="soft">A pedal that types B answers 60 ms later, because the codes of marks begin with B.</p>
      )}
      <button type="button" onClick={() => onKeys(DEFAULT_KEYS)}>
        Default keys
      </button>
    </section>
  );
}
