import type { Cure } from '../../../server/core/plan/cure.ts';
import { forbiddingWarnings } from '../../../server/core/plan/forbids.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { DO_NOT_SAW } from '../../../server/core/text/cureText.ts';
import { Note } from '../../kit/parts/Note.tsx';
import './forbidding.css';
import { wordOfWarning } from './warningWords.ts';

interface Curable {
  readonly plan: Plan;
  readonly isPlanning: boolean;
  /** The plan is made anew with it. */
  readonly onCure: (cure: Cure) => void;
}

/** What forbids the cut, before anything else, with what was tried and helps. */
export function Forbidding({ plan, isPlanning, onCure }: Curable) {
  const forbidding = forbiddingWarnings(plan);
  if (forbidding.length === 0) return null;
  return (
    <section class="stack forbidding" aria-label={DO_NOT_SAW}>
      <h2>{DO_NOT_SAW}</h2>
      {forbidding.map((warning) => (
        <Note key={`${warning.code} ${warning.mark} ${warning.message}`} kind="alarm" word={wordOfWarning(warning)}>
          {warning.message}
          <ul class="cures">
            {(warning.cures ?? []).map((cure) => (
              <li key={cure.text}>
                <span>{cure.text}</span>
                <CureButton cure={cure} isPlanning={isPlanning} onCure={onCure} />
              </li>
            ))}
          </ul>
        </Note>
      ))}
    </section>
  );
}

function CureButton({ cure, isPlanning, onCure }: Omit<Curable, 'plan'> & { readonly cure: Cure }) {
  // Whether it is so, a person has to look at and say.
  if (cure.kind === 'state it')
    return (
      <a class="button" href="#confirm-way">
        Look and confirm
      </a>
    );
  return (
    <button type="button" disabled={isPlanning} onClick={() => onCure(cure)}>
      {cure.kind === 'routine' ? 'Take this routine' : 'Plan it so'}
    </button>
  );
}
