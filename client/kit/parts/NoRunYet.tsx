import type { RunLinkState } from '../link/runLink.ts';
import { Note } from './Note.tsx';

/** What stands on a run's page while there is no run to show yet. */
export function NoRunYet({ state }: { readonly state: RunLinkState }) {
  return (
    <main class="below-line stack">
      {state.line === 'refused' ? (
        <Note kind="alarm" word="Not joined">
          {state.refusal?.message}
        </Note>
      ) : (
        <p class="below-line-word">Looking for the server…</p>
      )}
      <p>
        <a class="button" href="/">
          To the start page
        </a>
      </p>
    </main>
  );
}
