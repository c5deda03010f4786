import { type Store, useStore } from '../link/store.ts';
import { Note } from '../parts/Note.tsx';
import type { Loudspeaker } from '../sound/loudspeaker.ts';
import { type EarSettings, inUse, OUTPUTS, type Output, RATHER_WIRED_MS } from './earSettings.ts';

const WORDS: Readonly<Record<Output, string>> = { wired: 'Wired', wireless: 'Wireless', loudspeaker: 'Loudspeaker' };
const THIS: Readonly<Record<Output, string>> = {
  wired: 'This headset',
  wireless: 'This headset',
  loudspeaker: 'This loudspeaker',
};

/** What the sound comes out of, and how late. */
export function OutputSection(props: {
  readonly loudspeaker: Loudspeaker;
  readonly settings: Store<EarSettings>;
  readonly onMeasure: () => void;
}) {
  const settings = useStore(props.settings, (each) => each);
  const delayMs = useStore(props.loudspeaker.state, (each) => each.delayMs);
  const { output } = settings;
  const { measured } = inUse(settings);
  return (
    <section>
      <h3>Heard from</h3>
      <div class="choices choices-row" role="radiogroup" aria-label="Heard from">
        {OUTPUTS.map((each) => (
          <label key={each} class="choice">
            <input
              type="radio"
              name="output"
              checked={each === output}
              onChange={() => props.settings.change({ output: each })}
            />
            <strong>{WORDS[each]}</strong>
          </label>
        ))}
      </div>
      <p>
        {THIS[output]} is <strong class="late figures">{delayMs} ms</strong> late
        {measured !== null && `, give or take ${Math.max(5, Math.round(measured.doubtMs / 5) * 5)}`}.{' '}
        {measured === null && (output === 'wireless' ? 'Assumed: measure it. ' : 'As the device says, not measured. ')}
        The calls start that much earlier.
      </p>
      {delayMs > RATHER_WIRED_MS && (
        <Note kind="care" word="A wire is better">
          Late ears make short warnings.
        </Note>
      )}
      <button
        type="button"
        class={measured === null && output === 'wireless' ? 'button-strong' : ''}
        onClick={props.onMeasure}
      >
        {measured === null ? 'Measure it' : 'Measure again'}
      </button>
    </section>
  );
}
