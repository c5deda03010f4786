import { useState } from 'preact/hooks';
import type { PaperName, SheetSize, StripSize } from '../../../server/wire/request/papers.ts';
import { PAPER_WORDS, SIZE_WORDS } from '../../kit/figures/paperWords.ts';
import { api, type JobSent, type Refusal } from '../../kit/link/api.ts';
import { Note } from '../../kit/parts/Note.tsx';

const SHEETS = ['sheet', 'which-way', 'board', 'test-cuts'] as const satisfies readonly Exclude<PaperName, 'strip'>[];

/** What goes to the saw on paper: enough to do the job by voice when every device dies. */
export function PaperSheet({ job }: { readonly job: JobSent }) {
  const [sheetSize, setSheetSize] = useState<SheetSize>('a4');
  const [stripSize, setStripSize] = useState<StripSize>('a4');
  const [printing, setPrinting] = useState<PaperName | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  async function print(paper: PaperName): Promise<void> {
    setPrinting(paper);
    setRefusal(null);
    const asked = await api.paper(paper, { ...job, paper: paper === 'strip' ? stripSize : sheetSize });
    setPrinting(null);
    if (asked.ok) save(asked.value, `${paper}.pdf`);
    else setRefusal(asked);
  }
  const button = (paper: PaperName) => (
    <button type="button" key={paper} disabled={printing !== null} onClick={() => void print(paper)}>
      {printing === paper ? 'Drawing…' : PAPER_WORDS[paper]}
    </button>
  );

  return (
    <section class="sheet stack paper">
      <h2>Paper for the saw</h2>
      <p class="soft">
        PDF files at full size: print at 100 %, never “fit to page”. The schedule with its cards is enough to do the job
        by voice when every device dies.
      </p>
      <div class="row">
        {button('strip')}
        <label class="row">
          on
          <select value={stripSize} onChange={(event) => setStripSize(event.currentTarget.value as StripSize)}>
            <option value="a4">{SIZE_WORDS.a4}</option>
            <option value="letter">{SIZE_WORDS.letter}</option>
            <option value="roll62">{SIZE_WORDS.roll62}</option>
            <option value="tape24">{SIZE_WORDS.tape24}</option>
          </select>
        </label>
      </div>
      <div class="row">
        {SHEETS.map(button)}
        <label class="row">
          on
          <select value={sheetSize} onChange={(event) => setSheetSize(event.currentTarget.value as SheetSize)}>
            <option value="a4">{SIZE_WORDS.a4}</option>
            <option value="letter">{SIZE_WORDS.letter}</option>
          </select>
        </label>
      </div>
      {refusal !== null && <Note kind="alarm">{refusal.error.message}</Note>}
    </section>
  );
}

function save(file: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  // The browser has begun to read it by then.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
