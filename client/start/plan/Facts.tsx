import { durationFigure, fineSecondsText, secondsText } from '../../../server/core/figures/durations.ts';
import { feedText, rateText } from '../../../server/core/figures/feeds.ts';
import { lengthIn, lengthText } from '../../../server/core/figures/lengths.ts';
import { turnsText } from '../../../server/core/figures/turns.ts';
import { betweenMarksSentence } from '../../../server/core/pace/betweenMarks.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { LIMIT_WORDS } from '../../../server/core/text/routineWords.ts';
import { degFigure, lengthsIn } from '../../kit/figures/shownFigures.ts';

/** What is needed and what is allowed, in figures. */
export function Facts({ plan }: { readonly plan: Plan }) {
  const lengths = lengthsIn(plan.notation);
  /** What is needed is never told as less. */
  const atLeast = (mm: number): string => lengthText(mm, plan.notation, 'at least');
  const { stock, pace, twist, fairing, stack } = plan;
  const slowest = pace.intervals.reduce<(typeof pace.intervals)[number] | null>(
    (most, interval) => (most === null || interval.limitMPerMin < most.limitMPerMin ? interval : most),
    null,
  );
  return (
    <section class="sheet">
      <dl class="facts">
        <dt>Stock</dt>
        <dd>
          {plan.rip !== undefined && `get out ${atLeast(plan.rip.roughThicknessMm)} x `}
          {plan.rip !== undefined && `${atLeast(stock.widthMm)} x ${atLeast(stock.lengthMm)}; `}
          dressed {atLeast(stock.thicknessMm)} thick, {lengthText(plan.frame.sidingMm, plan.notation)} wide
          {plan.rip === undefined && `, ${atLeast(stock.lengthMm)} long`}
        </dd>
        <dt>Feed</dt>
        <dd>
          at most {feedText(pace.limitMPerMin, plan.notation)}
          <span class="soft"> mark by mark, limited by {LIMIT_WORDS[pace.limitedBy]}</span>
        </dd>
        {slowest !== null && (
          <>
            <dt>Slowest</dt>
            <dd>
              from mark {slowest.fromMark} to {slowest.toMark}
              <span class="soft">
                {`: words ${secondsText(slowest.wordsS)}, reaction ${fineSecondsText(slowest.reactionS)}, wheel ${secondsText(slowest.wheelS)}`}
              </span>
            </dd>
          </>
        )}
        <dt>Whole rip</dt>
        <dd>
          {durationFigure(pace.durationS)}{' '}
          <span class="soft">at the crew’s own feed, or at the limit where that is slower</span>
        </dd>
        {plan.betweenMarks !== undefined && (
          <>
            <dt>Between marks</dt>
            <dd>{betweenMarksSentence(plan.betweenMarks, lengthIn(plan.notation))}</dd>
          </>
        )}
        <dt>Twist</dt>
        <dd>
          {rateText(twist.maxDegPerM, plan.notation)}{' '}
          <span class="soft">the blade follows {rateText(twist.limitDegPerM, plan.notation)}</span>
        </dd>
        {plan.pickedUp.length > 0 && (
          <>
            <dt>Fairing</dt>
            <dd>
              picked-up bevels lie {degFigure(fairing.rmsDeg)}° <span class="soft">(rms) off the fair curve</span>
            </dd>
          </>
        )}
        <dt>Stack</dt>
        <dd>
          {stack.plies} laminations of {lengths.fineText(stack.laminationMm)}
          <span class="soft">, {stack.species}</span>
        </dd>
        <dt>Saw</dt>
        <dd>
          kerf {lengths.fineText(plan.saw.kerfMm)}, readout to {degFigure(plan.saw.readoutDeg, 1)}°,{' '}
          {plan.saw.turnsTable === undefined
            ? `${degFigure(plan.saw.degreesPerTurn, 1)}° a turn`
            : 'turns by their table'}
          {(plan.saw.backlashTurns ?? 0) > 0 && `, ${turnsText(plan.saw.backlashTurns ?? 0)} loose`}
        </dd>
        {plan.defaults.length > 0 && (
          <>
            <dt>Assumed</dt>
            <dd class="soft">{plan.defaults.join(', ')}</dd>
          </>
        )}
      </dl>
    </section>
  );
}
