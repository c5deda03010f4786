import { useEffect, useState } from 'preact/hooks';
import { placeText } from '../../../server/core/run/view/placeText.ts';
import { canBeRead, type ListedRun } from '../../../server/wire/message/messages.ts';
import { dayAndTime } from '../figures/shownFigures.ts';
import { MODE_WORDS, STATE_WORDS } from '../figures/words.ts';
import { type ApiAnswer, api } from '../link/api.ts';
import { Head } from './Head.tsx';
import { Note } from './Note.tsx';
import { STATE_SHAPES } from './noticeShapes.tsx';

const LOOK_EVERY_MS = 2000;

/** A device that was paired without a run: it chooses one, or waits here until there is one. */
export function ChooseRun({ page }: { readonly page: 'sawyer' | 'wheel' | 'record' | 'codes' }) {
  const [asked, setAsked] = useState<ApiAnswer<readonly ListedRun[]> | null>(null);
  useEffect(() => {
    const look = (): void => void api.runs().then(setAsked);
    look();
    const looking = setInterval(look, LOOK_EVERY_MS);
    return () => clearInterval(looking);
  }, []);
  const all = asked?.ok === true ? asked.value.filter(canBeRead) : [];
  const runs = page === 'sawyer' || page === 'wheel' ? all.filter((run) => run.state !== 'finished') : all;
  return (
    <>
      <Head />
      <main class="below-line stack">
        <h1>Which run?</h1>
        {asked?.ok === false && <Note kind="alarm">{asked.error.message}</Note>}
        {asked?.ok === true && runs.length === 0 && (
          <p>There is no open run yet. Make one on the start page; it will appear here by itself.</p>
        )}
        {runs.slice(0, 20).map((run) => {
          const Shape = STATE_SHAPES[run.state];
          return (
            <a key={run.run} class="button choose-run" href={`/${page}?run=${run.run}`}>
              <Shape /> {run.title}, {MODE_WORDS[run.mode]}, {STATE_WORDS[run.state].toLowerCase()},{' '}
              {dayAndTime(run.madeAtMs)}. {placeText(run)}
            </a>
          );
        })}
      </main>
    </>
  );
}
