import type { Cure } from '../../../server/core/plan/cure.ts';
import { standsAgainst } from '../../../server/core/plan/forbids.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { BevelDrawing } from '../../drawing/BevelDrawing.tsx';
import '../../drawing/loft.css';
import { chalkSentence, whichWaySentence } from '../../../server/core/text/leadingEndText.ts';
import { SectionDrawing } from '../../drawing/SectionDrawing.tsx';
import { WhichWay } from '../../drawing/WhichWay.tsx';
import type { JobSent } from '../../kit/link/api.ts';
import { Note } from '../../kit/parts/Note.tsx';
import { ConfirmWay } from '../run/ConfirmWay.tsx';
import { Forbidding } from '../run/Forbidding.tsx';
import { Facts } from './Facts.tsx';
import { MarksTable } from './MarksTable.tsx';
import { AgainstSheet, OffsetsSheet } from './OffsetsSheet.tsx';
import './offsets.css';
import { wordOfWarning } from '../run/warningWords.ts';
import { PaceSheet } from './PaceSheet.tsx';
import { RipSheet } from './RipSheet.tsx';

/** The plan of a job, as it would lie on the loft floor. */
export function PlanView(props: {
  readonly plan: Plan;
  readonly job: JobSent;
  readonly isPlanning: boolean;
  readonly onConfirm: (job: JobSent) => void;
  readonly onCure: (cure: Cure) => void;
}) {
  const { plan } = props;
  const advice = plan.warnings.filter((warning) => !standsAgainst(warning));
  const hasPattern = plan.marks.some((mark) => mark.yMm !== null);
  return (
    <article class="plan" aria-busy={props.isPlanning}>
      <header class="plan-title">
        <h1>{plan.title}</h1>
        <p class="soft">
          Frame {plan.frame.label}, {plan.frame.side}, moulded face {plan.frame.mouldedFace}. {plan.marks.length} marks.
        </p>
        <a class="button button-strong" href="#start-run">
          Start a run
        </a>
      </header>
      <Forbidding plan={plan} isPlanning={props.isPlanning} onCure={props.onCure} />
      {advice.length > 0 && (
        <div class="stack warnings">
          {advice.map((warning) => (
            <Note key={`${warning.code} ${warning.mark} ${warning.message}`} kind="care" word={wordOfWarning(warning)}>
              {warning.message}
            </Note>
          ))}
        </div>
      )}
      <section class="sheet">
        <BevelDrawing plan={plan} />
      </section>
      <section class="sheet which-way">
        <div class="stack">
          <h2>Which way round</h2>
          <p class="which-way-sentence">{whichWaySentence(plan)}</p>
          <p>{chalkSentence(plan)}</p>
          {!plan.leadsIsSure && <ConfirmWay plan={plan} job={props.job} onConfirm={props.onConfirm} />}
        </div>
        <WhichWay plan={plan} />
      </section>
      <div class={hasPattern ? 'plan-pair' : 'plan-pair plan-single'}>
        {hasPattern && (
          <section class="sheet">
            <h2>Frame {plan.frame.label}</h2>
            <SectionDrawing plan={plan} />
          </section>
        )}
        <Facts plan={plan} />
      </div>
      <OffsetsSheet plan={plan} />
      <AgainstSheet plan={plan} />
      <RipSheet plan={plan} />
      <PaceSheet plan={plan} />
      <div class="marks-and-cautions">
        <MarksTable plan={plan} />
        <section class="stack cautions">
          <h2>Cautions</h2>
          <ul>
            {plan.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      </div>
    </article>
  );
}
