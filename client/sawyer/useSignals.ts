import { useEffect } from 'preact/hooks';
import type { Plan } from '../../server/core/plan/plan.ts';
import { parseMarkCode, stripLetters } from '../../server/wire/message/markCode.ts';
import type { RunLink } from '../kit/link/runLink.ts';
import { listenToKeyboard } from '../kit/pedal/keyboardSignals.ts';
import type { PedalKeys } from '../kit/pedal/pedalKeys.ts';
import type { Deeds } from './pedalFeet.ts';

/** Every mark's code begins so; see server/wire/message/markCode.ts. */
const CODE_BEGINS = 'B';

/** Listens to pedal and scanner for as long as the page is open. `isLearning`: the next key is a lesson, not a sign. */
export function useSignals(parts: {
  readonly link: RunLink;
  readonly plan: Plan;
  readonly deeds: Deeds;
  readonly keys: { readonly current: PedalKeys };
  readonly isLearning: { readonly current: boolean };
}): void {
  const { link, plan, deeds, keys, isLearning } = parts;
  useEffect(
    () =>
      listenToKeyboard({
        keys: () => keys.current,
        pedal: (sign) => deeds.pedal(sign),
        scan: (text) => {
          const code = parseMarkCode(text);
          if (!code.ok)
            deeds.refuseScan(
              code.reason === 'misread'
                ? 'The code was not read right: scan it again.'
                : 'This is not the code of a mark.',
            );
          else if (code.strip !== stripLetters(plan))
            deeds.refuseScan(
              `This mark belongs to another strip (${code.strip}). It is not counted. Is this the right stock?`,
            );
          else deeds.scan(code.mark);
        },
        isTaken: (event) => isLearning.current || isForThePage(event, link.state.get().view?.state ?? 'ready'),
        beginsCode: (key) => key.toUpperCase() === CODE_BEGINS,
      }),
    [link, plan, deeds],
  );
}

/** While a run is under way the keys are the pedal's, whatever has the focus, but for a field that is typed into. */
function isForThePage(event: KeyboardEvent, state: string): boolean {
  const target = event.target instanceof Element ? event.target : null;
  if (target?.closest('input:not([type="radio"]), textarea, select') != null) return event.code !== 'Escape';
  const isBefore = state === 'ready' || state === 'finished';
  const activates = event.code === 'Enter' || event.code === 'Space' || event.code === 'NumpadEnter';
  return isBefore && activates && target?.closest('button, a, summary, label') != null;
}
