import { useEffect, useState } from 'preact/hooks';
import { canBeRead, type RunView } from '../../server/wire/message/messages.ts';
import { dayAndTime } from '../kit/figures/shownFigures.ts';
import { MODE_WORDS } from '../kit/figures/words.ts';
import { api } from '../kit/link/api.ts';

const RUNS_SHOWN = 8;

/** What is to be said: by which job, or by which run. */
export function ChooseList() {
  const [jobs, setJobs] = useState<readonly { readonly name: string; readonly title: string }[]>([]);
  const [runs, setRuns] = useState<readonly RunView[]>([]);
  useEffect(() => {
    void api.jobs().then((asked) => asked.ok && setJobs(asked.value));
    void api.runs().then((asked) => asked.ok && setRuns(asked.value.filter(canBeRead)));
  }, []);
  return (
    <section class="stack">
      <h1>Record a voice</h1>
      <p>What is it to say? The words come from a job, or from a run that was made.</p>
      {jobs.map(({ name, title }) => (
        <a key={name} class="button voice-choice" href={`/voice?job=${encodeURIComponent(name)}`}>
          {title}
        </a>
      ))}
      {runs.slice(0, RUNS_SHOWN).map(({ run, title, mode, madeAtMs }) => (
        <a key={run} class="button voice-choice" href={`/voice?run=${run}`}>
          {title}, {MODE_WORDS[mode]} of {dayAndTime(madeAtMs)}
        </a>
      ))}
      <p class="soft">A job of your own: open it on the start page, and choose “Record a voice” there.</p>
    </section>
  );
}
