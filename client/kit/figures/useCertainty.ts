/** Whether what is drawn is known, guessed, or old: said by a word that stays long enough to be read. */
import { useMemo, useState } from 'preact/hooks';
import type { RunLink } from '../link/runLink.ts';
import { type RunBoard, useGuide } from '../link/useRunBoard.ts';
import { useFrames } from '../plank/useFrames.ts';
import { HeldSign } from './minimumShown.ts';

type Certainty = 'known' | 'guess' | 'no news';

const HELD = { leastMs: 1000, goneMs: 300 };

export function useCertainty(link: RunLink, board: RunBoard): Certainty {
  const signs = useMemo(() => ({ guess: new HeldSign(HELD), noNews: new HeldSign(HELD) }), [board]);
  const [certainty, setCertainty] = useState<Certainty>('known');
  const isGuess =
    useGuide(link, ({ state, trust }) => state === 'feeding' && trust !== null && trust !== 'known') === true;
  useFrames((nowMs) => {
    const isGuessed = signs.guess.at(isGuess, nowMs);
    const isOld = signs.noNews.at(!board.shownAt(nowMs).isLive, nowMs);
    setCertainty(isOld ? 'no news' : isGuessed ? 'guess' : 'known');
  });
  return certainty;
}
