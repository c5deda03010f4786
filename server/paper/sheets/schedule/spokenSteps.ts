/** The run as two people and a sheet of paper do it: what is said when each mark is at the blade. */
import type { Plan } from '../../../core/plan/plan.ts';
import { makeSetup } from '../../../core/run/makeSetup.ts';
import { grammarOf } from '../../../core/words/languages.ts';
import { phrasesFor } from '../../../core/words/phrases.ts';
import { turnWord } from '../../../core/words/turnWord.ts';

interface SpokenStep {
  /** At the blade now; null: before the wood touches it. */
  readonly mark: number | null;
  readonly alongMm: number | null;
  /** What the readout shows by now. */
  readonly callDeg: number | null;
  /** The words to be said, in the language of the voice. */
  readonly say: string;
  /** What is turned to; null behind the last mark. */
  readonly toDeg: number | null;
  readonly turn: string;
}

/** In the order of the run; as `mark by mark` calls it, so that practice with the program is practice for the paper. */
export function spokenSteps(plan: Plan): readonly SpokenStep[] {
  const { stations, callTexts } = makeSetup(plan, 'pair', {});
  const { turns } = grammarOf(plan.voice.language);
  const words = { ...turns, same: '=' };
  const before: SpokenStep = {
    mark: null,
    alongMm: null,
    callDeg: null,
    say: callTexts[0] ?? '',
    toDeg: stations[0]?.callDeg ?? null,
    turn: '',
  };
  const at = stations.map(({ mark, positionMm, callDeg }, index): SpokenStep => {
    const next = stations[index + 1];
    return {
      mark,
      alongMm: positionMm,
      callDeg,
      say: next === undefined ? phrasesFor(plan.voice).runDone : (callTexts[index + 1] ?? ''),
      toDeg: next?.callDeg ?? null,
      turn: next === undefined ? '' : words[turnWord(callDeg, next.callDeg)],
    };
  });
  return [before, ...at];
}
