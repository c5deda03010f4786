/** Under the figure: how far off the blade is, or which way it goes, or why neither can be told. By a word and a shape. */
import { degFigure } from '../kit/figures/shownFigures.ts';
import {
  GuessShape,
  LessShape,
  MoreShape,
  NoNewsShape,
  OnItShape,
  SameShape,
  StoppedShape,
  TooLittleShape,
  TooMuchShape,
} from '../kit/parts/noticeShapes.tsx';

export type Sign =
  | { readonly kind: 'error'; readonly errorDeg: number }
  | { readonly kind: 'more' | 'less' | 'same' | 'hold' | 'guess' | 'no news' };

const SHAPES = {
  more: MoreShape,
  less: LessShape,
  same: SameShape,
  hold: StoppedShape,
  guess: GuessShape,
  'no news': NoNewsShape,
} as const;

/** Up to here the hand is told that it is good: finer is not turned by hand (assumption). */
const GOOD_DEG = 0.1;

export function FollowSign({ sign }: { readonly sign: Sign | null }) {
  if (sign === null) return null;
  if (sign.kind !== 'error') {
    const Shape = SHAPES[sign.kind];
    return (
      <p class="follow-sign" data-sign={sign.kind}>
        <Shape /> {sign.kind}
      </p>
    );
  }
  const { Shape, word } = errorWords(sign.errorDeg);
  return (
    <div class="follow-error" data-sign={word}>
      <p class="follow-off figures">
        <Shape /> {degFigure(Math.abs(sign.errorDeg), 1)}
      </p>
      <p class="follow-word">{word}</p>
    </div>
  );
}

function errorWords(errorDeg: number) {
  if (Math.abs(errorDeg) <= GOOD_DEG + 1e-9) return { Shape: OnItShape, word: 'good' };
  return errorDeg > 0 ? { Shape: TooMuchShape, word: 'too much' } : { Shape: TooLittleShape, word: 'too little' };
}
