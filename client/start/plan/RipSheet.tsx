import { lengthIn } from '../../../server/core/figures/lengths.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { standStillSentence } from '../../../server/core/saw/blade.ts';
import { bendCureSentences, bendSentence, laminationSentences } from '../../../server/core/text/bendSentences.ts';
import { handChangeSentence } from '../../../server/core/text/leadingEndText.ts';
import {
  allowanceSentence,
  battenSentence,
  bladeSentence,
  endsSentence,
  feedSentence,
  knowsEdge,
  leftSentence,
  twistCureSentences,
} from '../../../server/core/text/ripSentences.ts';
import { Note } from '../../kit/parts/Note.tsx';
import { RipTable } from './RipTable.tsx';
import './rip.css';

/** What is sawn and what becomes of it: feed, stock, what is left inside, where to cut off, bend, blade. Nothing for plans of before. */
export function RipSheet({ plan }: { readonly plan: Plan }) {
  const { rip, bend } = plan;
  if (rip === undefined || bend === undefined) return null;
  const length = lengthIn(plan.notation);
  const batten = battenSentence(rip, length);
  const rows: readonly (readonly [string, readonly string[]])[] = [
    ['Feed', [feedSentence(rip, plan.frame.sidingMm, length)]],
    ['Stock', [allowanceSentence(rip, length), ...(batten === undefined ? [] : [batten])]],
    ['Change of hand', rip.handChanges.map((change) => handChangeSentence(change, plan, length))],
    ['Left inside', [leftSentence(rip, length, knowsEdge(plan.marks))]],
    ['Cutting off', [endsSentence(rip, length)]],
    ['Bend', [bendSentence(bend, length), ...laminationSentences(bend, length), ...bendCureSentences(bend, length)]],
    ['Blade', [bladeSentence(rip, plan.notation), ...twistCureSentences(rip, length)]],
  ];
  return (
    <section class="sheet stack">
      <h2>The rip</h2>
      <Note kind="care" word="Hold the tilt">
        {standStillSentence(rip, plan.frame.sidingMm, length)}
      </Note>
      <dl class="facts">
        {rows
          .filter(([, sentences]) => sentences.length > 0)
          .map(([name, sentences]) => [
            <dt key={name}>{name}</dt>,
            <dd key={`${name} words`}>
              {sentences.map((sentence) => (
                <p key={sentence} class="rip-words">
                  {sentence}
                </p>
              ))}
            </dd>,
          ])}
      </dl>
      <details>
        <summary>At every mark</summary>
        <RipTable plan={plan} rip={rip} bend={bend} />
      </details>
    </section>
  );
}
