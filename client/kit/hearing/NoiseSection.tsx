import { percentText, wholeFigure } from '../../../server/core/figures/shares.ts';
import {
  ASKED_OVER_NOISE_DB,
  BAND_RESAW_DBA,
  type Exposure,
  exposureRange,
} from '../../../server/core/hearing/exposure.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { Clip } from '../../../server/wire/message/messages.ts';
import { type Store, useStore } from '../link/store.ts';
import { Note } from '../parts/Note.tsx';
import { DoneShape } from '../parts/noticeShapes.tsx';
import { type EarSettings, inUse, NOISE_DBA, NRR_DB } from './earSettings.ts';
import { listeningOf } from './listeningOf.ts';
import { whatToDo } from './whatToDo.ts';

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
          label="Where you stand, dBA"
          value={noiseDba}
          {...NOISE_DBA}
          onValue={(value) => props.settings.change({ noiseDba: value })}
        />
        <FigureField
          label="Ear protection, NRR"
          value={nrrDb === 0 ? null : nrrDb}
          {...NRR_DB}
          onValue={(value) => props.settings.change({ nrrDb: value ?? 0 })}
        />
      </div>
      <p class="soft">
        {noiseDba === null &&
          `Not known: assumed as for a band re-saw, ${BAND_RESAW_DBA.least} to ${BAND_RESAW_DBA.most} dBA. `}
        {nrrDb === 0 ? 'No protection. ' : 'Counted: half of the rating less 7 dB. '}
        {inUse(settings).understoodDb === null &&
          `The words are assumed to be ${ASKED_OVER_NOISE_DB} dB louder: set the level.`}
      </p>
      <Verdict exposures={exposureRange(listening)} isBare={nrrDb === 0} isNoiseKnown={noiseDba !== null} />
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

function Verdict(props: {
  readonly exposures: { readonly least: Exposure; readonly most: Exposure };
  readonly isBare: boolean;
  readonly isNoiseKnown: boolean;
}) {
  const { least, most } = props.exposures;
  const isSure = least.verdict === most.verdict;
  const todo = whatToDo({ ...props, exposure: most });
  return (
    <div class="stack" role="status" data-verdict={isSure ? most.verdict : 'perhaps'}>
      {!isSure ? (
        <Note kind="care" word={`Perhaps ${VERDICT_WORDS[most.verdict]}`}>
          In the loudest shop: <Shares of={most} />
        </Note>
      ) : most.verdict === 'fine' ? (
        <p>
          <DoneShape /> <Shares of={most} />
        </p>
      ) : (
        <Note kind={most.verdict === 'half' ? 'care' : 'alarm'} word={firstCapital(VERDICT_WORDS[most.verdict])}>
          <Shares of={most} />
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

function Shares({ of }: { readonly of: Exposure }) {
  const { nioshPercent, oshaPercent, noiseAtEarDba, wordsAtEarDba } = of;
  const levels = `${wholeFigure(noiseAtEarDba)} dBA at the ear, ${wholeFigure(wordsAtEarDba)} with the words`;
  if (nioshPercent === Number.POSITIVE_INFINITY) return <>{levels}: for no time at all.</>;
  return (
    <>
      {levels}. This run takes <strong>{percentText(nioshPercent)}</strong> of a day by NIOSH,{' '}
      {percentText(oshaPercent)} by OSHA.
    </>
  );
}

const VERDICT_WORDS = { fine: 'fine', half: 'more than half a day', past: 'more than a day', 'too loud': 'too loud' };

const firstCapital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
