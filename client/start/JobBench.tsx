import { useRef, useState } from 'preact/hooks';
import type { DroppedFile } from './gatherJob.ts';

/** Where a job comes from: those offered, or the shipwright's own files. */
export function JobBench(props: {
  readonly offered: readonly { readonly name: string; readonly title: string }[];
  readonly opened: string | null;
  readonly planning: string | null;
  readonly onOffered: (name: string, title: string) => void;
  readonly onDrop: (files: readonly DroppedFile[]) => void;
}) {
  const [isOver, setOver] = useState(false);
  const picker = useRef<HTMLInputElement>(null);

  async function take(files: FileList | null | undefined): Promise<void> {
    if (files == null || files.length === 0) return;
    const read = Array.from(files, async (file) => ({ name: file.name, text: await file.text() }));
    props.onDrop(await Promise.all(read));
  }

  return (
    <section class="bench" aria-label="Job">
      <div class="stack">
        <h2>Job</h2>
        <div class="row">
          {props.offered.map((job) => (
            <button
              key={job.name}
              type="button"
              aria-pressed={props.opened === job.title}
              onClick={() => props.onOffered(job.name, job.title)}
            >
              {job.title}
            </button>
          ))}
        </div>
        <p class="soft" aria-live="polite">
          {props.planning === null ? '\u00a0' : `Planning: ${props.planning}`}
        </p>
      </div>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is offered beside the button that does the same */}
      <div
        class={isOver ? 'drop drop-over' : 'drop'}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(event) => {
          event.preventDefault();
          setOver(false);
          void take(event.dataTransfer?.files);
        }}
      >
        <p>
          <strong>Your own job:</strong> drop the job file (.json) and its tables (.csv) here, all together.
        </p>
        <button type="button" onClick={() => picker.current?.click()}>
          Choose files
        </button>
        <input
          ref={picker}
          class="unseen"
          type="file"
          multiple
          tabIndex={-1}
          aria-label="Job file and tables"
          accept=".json,.csv,.txt,application/json,text/csv"
          onChange={(event) => {
            void take(event.currentTarget.files).then(() => {
              // The same file, mended, may be chosen again.
              if (picker.current !== null) picker.current.value = '';
            });
          }}
        />
      </div>
    </section>
  );
}
