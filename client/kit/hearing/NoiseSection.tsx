import {
  BAND_RESAW_DBA,
  type Exposure,
  exposureOf,
  LOUDEST_SIGNAL_DBA,
} from '../../../server/core/hearing/exposure.ts';
import type { Plan } from '../../../server/core/plan.ts';
import type { Clip } from '../../../server/wire/messages.ts';
import { Note } from '../Note.tsx';
import { DoneShape } from '../shapes.tsx';
import { type Store, useStore } from '../store.ts';
import { type EarSettings, NOISE_DBA, NRR_DB } from './earSettings.ts';
import { listeningOf } from './listeningOf.ts';

/** Protection is called for from here on. Source: NIOSH 98-126, the recommended limit for a day. */
const PROTECT_FROM_DBA = 85;

/** The shop's noise, and what this run does to an ear at the level that was chosen. */
export function NoiseSection(props: {
  readonly settings: Store<EarSettings>;
  readonly plan: Plan;
  readonly clips: readonly Clip[];
}) {
  const settings = useStore(props.settings, (each) => each);
  const { noiseDba, nrrDb } = settings;
  const listening = listeningOf(settings, props.plan, props.clips);
  return (
    <section>
      <h3>Noise</h3>
      <div class="row noise-asked">
        <FigureField
          label="At your ear without protection, dBA"
          value={noiseDba}
          {...NOISE_DBA}
          onValue={(value) => props.settings.change({ noiseDba: value })}
        />
        <FigureField
          label="Ear protection worn, its rating (NRR)"
          value={nrrDb === 0 ? null : nrrDb}
          {...NRR_DB}
          onValue={(value) => props.settings.change({ nrrDb: value ?? 0 })}
        />
      </div>
      <p class="soft">
        {noiseDba === null
          ? `Left empty, a band re-saw is taken: ${BAND_RESAW_DBA.least} to ${BAND_RESAW_DBA.most} dBA, the loudest of it.`
          : 'As measured where you stand.'}{' '}
        {nrrDb === 0 ? 'No protection is counted.' : 'Of the rating, less 7 dB, half is counted.'}
      </p>
      <Verdict exposure={exposureOf(listening)} isBare={nrrDb === 0} isNoiseKnown={noiseDba !== null} />
    </section>
  );
}

/** Empty: not known. What is out of range is not taken. */
function FigureField(props: {
  readonly label: string;
  readonly value: number | null;
  readonly least: number;
  readonly most: number;
  readonly onValue: (value: number | null) => void;
}) {
  const { least, most } = props;
  return (
    <label class="noise-field">
      <span>{props.label}</span>
      <input
        type="number"
        inputMode="numeric"
        min={least}
        max={most}
        value={props.value ?? ''}
        onChange={({ currentTarget }) => {
          const value = currentTarget.valueAsNumber;
          if (currentTarget.value === '') props.onValue(null);
          else if (value >= least && value <= most) props.onValue(value);
          else currentTarget.value = String(props.value ?? '');
        }}
      />
    </label>
  );
}

function Verdict(props: { readonly exposure: Exposure; readonly isBare: boolean; readonly isNoiseKnown: boolean }) {
  const { exposure } = props;
  const { verdict, oshaPercent, nioshPercent } = exposure;
  const shares = (
    <>
      This run takes <strong>{percentText(nioshPercent)}</strong> of a day by NIOSH, {percentText(oshaPercent)} by OSHA:{' '}
      {Math.round(exposure.noiseAtEarDba)} dBA at the ear, {Math.round(exposure.wordsAtEarDba)} with the words.
    </>
  );
  const todo = whatToDo(props);
  return (
    <div class="stack" role="status" data-verdict={verdict}>
      {verdict === 'fine' ? (
        <p>
          <DoneShape /> {shares}
        </p>
      ) : (
        <Note kind={verdict === 'half' ? 'care' : 'alarm'} word={VERDICT_WORDS[verdict]}>
          {shares}
        </Note>
      )}
      {todo.length > 0 && (
        <ul>
          {todo.map((each) => (
            <li key={each}>{each}</li>
          ))}
        </ul>
      )}
      <p class="soft">Reckoned, not measured. The rules of your shop and country go first.</p>
    </div>
  );
}

const VERDICT_WORDS = { half: 'More than half a day', past: 'More than a day', 'too loud': 'Too loud' } as const;

const percentText = (percent: number): string =>
  percent === Number.POSITIVE_INFINITY ? 'more than all' : percent < 1 ? 'under 1 %' : `${Math.round(percent)} %`;

/** What helps, first what helps most. */
function whatToDo({
  exposure,
  isBare,
  isNoiseKnown,
}: {
  readonly exposure: Exposure;
  readonly isBare: boolean;
  readonly isNoiseKnown: boolean;
}): readonly string[] {
  const { verdict, noiseAtEarDba, wordsAtEarDba, noisePercent, runsADay } = exposure;
  const todo: string[] = [];
  if (isBare && noiseAtEarDba >= PROTECT_FROM_DBA) todo.push('Wear ear protection that lets the calls through.');
  if (verdict === 'fine') return todo;
  if (wordsAtEarDba > LOUDEST_SIGNAL_DBA)
    todo.push(`No words above ${LOUDEST_SIGNAL_DBA} dBA: protect first, then turn down.`);
  else if (noisePercent <= 50) todo.push('Turn the words down: it is they that are too loud.');
  if (!isBare && noisePercent > 50) todo.push('Better protection: muffs over plugs.');
  if (!isNoiseKnown) todo.push('Have the noise measured: it may be less.');
  todo.push(
    runsADay >= 1 ? `No more than ${runsADay} such run${runsADay === 1 ? '' : 's'} a day.` : 'No such run like this.',
  );
  return todo;
}
