import type { Phase } from '../../../server/core/run/engine/state.ts';
import { WHEN_LOST, WHEN_LOST_AFTER } from '../figures/words.ts';
import { LostShape } from './noticeShapes.tsx';

const inTheCut = (state: Phase | null): boolean => state === 'feeding' || state === 'stopped' || state === 'lost';

/** Over everything while the server is gone: what to do comes first. It goes away by itself. */
export function Gone({ state }: { readonly state: Phase | null }) {
  return inTheCut(state) ? (
    <div class="gone" role="alertdialog" aria-label="The server is gone">
      <p class="gone-title">
        <LostShape /> The server is gone
      </p>
      <ol>
        {WHEN_LOST.map((order) => (
          <li key={order}>{order}</li>
        ))}
      </ol>
      <p class="gone-after">{WHEN_LOST_AFTER}</p>
      <p class="gone-after">Nothing is called now. This page comes back by itself when the server does.</p>
    </div>
  ) : (
    <div class="gone gone-mild" role="alertdialog" aria-label="The server is gone">
      <p class="gone-title">
        <LostShape /> The server is gone
      </p>
      <p class="gone-after">No run is in the cut. Do not start one: nothing would be called.</p>
      <p class="gone-after">This page comes back by itself. If it does not, check that By the Mark is still running.</p>
    </div>
  );
}
