/** Where bevels that were measured are typed or pasted in, as a table along,bevel. */
import type { Refusal } from '../kit/api.ts';
import { Note } from '../kit/Note.tsx';

export const HEADING = 'along,bevel';

/** A table that was pasted out of a sheet is parted by tabs or semicolons; a heading may be missing. */
export function asTable(text: string): string {
  const rows = text
    .split(/\r?\n/)
    .map((row) => row.trim())
    .filter((row) => row !== '')
    .map((row) => (row.includes(',') || row.startsWith('#') ? row : row.split(/[\t; ]+/).join(',')));
  const first = rows.find((row) => !row.startsWith('#')) ?? '';
  return [...(/[a-z]/i.test(first) ? [] : [HEADING]), ...rows, ''].join('\n');
}

export function MeasuredTable(props: {
  readonly text: string;
  readonly label: string;
  readonly units: 'mm' | 'in';
  readonly onText: (text: string) => void;
}) {
  return (
    <label class="measured-table">
      <span>
        {props.label}{' '}
        <span class="soft">
          a place in {props.units === 'mm' ? 'millimetres' : 'inches'}, a comma, its bevel in degrees; one a line
        </span>
      </span>
      <textarea
        rows={8}
        spellcheck={false}
        value={props.text}
        placeholder={'0, 4.0\n150, 5.5\n300, 7.0'}
        onInput={(event) => props.onText(event.currentTarget.value)}
      />
    </label>
  );
}

/** What is wrong with what was typed, each with its row. */
export function MeasuredWrong({ refusal }: { readonly refusal: Refusal }) {
  return (
    <Note kind="alarm" word="Not understood">
      {refusal.problems.length === 0
        ? refusal.error.message
        : refusal.problems
            .map(({ at, found, wanted }) => {
              const row = at.row === undefined ? '' : `Row ${at.row}: `;
              return `${row}found ${found}; wanted ${wanted}`;
            })
            .join('. ')}
    </Note>
  );
}
