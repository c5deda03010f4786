import { DESPITE_CHARS, forbiddingWarnings } from '../../../server/core/plan/forbids.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { Routine, RunMode } from '../../../server/core/routine/routine.ts';
import { Note } from '../../kit/parts/Note.tsx';
import { wordOfWarning } from './warningWords.ts';

/** Where the plan forbids the cut: a run is made only when somebody says why it may be; a rehearsal saws nothing. */
export function InSpite(props: {
  readonly plan: Plan;
  readonly mode: RunMode;
  readonly routine: Routine;
  readonly words: string;
  readonly onWords: (words: string) => void;
}) {
  const forbidding = forbiddingWarnings(props.plan, props.routine);
  if (forbidding.length === 0) return null;
  const what = [...new Set(forbidding.map(wordOfWarning))].join('; ');
  if (props.mode === 'rehearsal')
    return (
      <Note kind="plain">
        The plan forbids the cut ({what}). A rehearsal saws nothing, so it may be made all the same: no wood, blade
        standing.
      </Note>
    );
  return (
    <Note kind="alarm" word="Do not saw">
      The plan forbids this cut: {what}. Mend it above. Or say why it may be sawn all the same: the record keeps it.
      <label class="in-spite">
        <span>Why this run may be made</span>
        <textarea
          maxLength={DESPITE_CHARS}
          value={props.words}
          onInput={(event) => props.onWords(event.currentTarget.value)}
        />
      </label>
    </Note>
  );
}
