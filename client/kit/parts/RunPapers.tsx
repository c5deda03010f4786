import { useState } from 'preact/hooks';
import type { PaperName, SheetSize } from '../../../server/wire/request/papers.ts';
import { PAPER_WORDS, SIZE_WORDS } from '../figures/paperWords.ts';
import { paperAddress } from '../link/api.ts';

/** The papers of a run as links: a file each, at full size. */
export function RunPapers(props: { readonly run: string; readonly papers: readonly (PaperName | 'record')[] }) {
  const [size, setSize] = useState<SheetSize>('a4');
  return (
    <>
      {props.papers.map((paper) => (
        <a
          key={paper}
          class="button"
          href={paperAddress(props.run, paper, size)}
          download={`${paper}-${props.run}.pdf`}
        >
          {paper === 'record' ? 'Record' : PAPER_WORDS[paper]} (PDF)
        </a>
      ))}
      <label class="row">
        PDF on
        <select value={size} onChange={(event) => setSize(event.currentTarget.value as SheetSize)}>
          <option value="a4">{SIZE_WORDS.a4}</option>
          <option value="letter">{SIZE_WORDS.letter}</option>
        </select>
      </label>
    </>
  );
}
