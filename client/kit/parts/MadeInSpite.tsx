import { madeInSpiteOf } from '../../../server/core/plan/forbids.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { despiteSentence } from '../../../server/core/text/cureText.ts';
import { Note } from './Note.tsx';

/** A run that was made although its plan forbids the cut: what forbids it, and why it was made. */
export function MadeInSpite({ plan }: { readonly plan: Plan }) {
  const sentence = despiteSentence(plan);
  if (sentence === undefined) return null;
  return (
    <Note kind="care" word="The plan forbids this cut">
      {madeInSpiteOf(plan)
        .map(({ message }) => message)
        .join(' ')}{' '}
      <strong>{sentence}</strong>
    </Note>
  );
}
