/** Where bevels that were measured are typed or pasted in, as a table along,bevel. */
import { placeFigure, placeText } from '../../../server/core/figures/lengths.ts';
import { LENGTHS_ARE, unitsOf } from '../../../server/core/figures/notation.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { MM_PER_INCH } from '../../../server/core/units.ts';
import type { Refusal } from '../../kit/link/api.ts';
import { Note } from '../../kit/parts/Note.tsx';

const HEADING = 'along,bevel';

/** A table that was pasted out of a sheet is parted by tabs or semicolons; a heading may be missing. */
export function asTable(text: string): string {
  const rows = text
    .split(/\r?\n/)
    .map((row) => row.trim())
    .filter((row) => row !== '')
    .map((row) => (row.includes(',') || row.startsWith('#') ? row : row.split(partedBy(row)).join(',')));
  const first = rows.find((row) => !row.startsWith('#')) ?? '';
  return [...(/^["\s]*[a-z]/i.test(first) ? [] : [HEADING]), ...rows, ''].join('\n');
}

/** Blanks part cells only where none belongs to a figure: 10 1/2 is one, and so is 6 in. */
const partedBy = (row: string): RegExp => (/[\t;]/.test(row) ? /\s*[\t;]\s*/ : /[/a-z'"]/i.test(row) ? /$^/ : / +/);

/** As somebody would type it into this job. */
function exampleIn({ units, notation }: Pick<Plan, 'units' | 'notation'>): string {
  const say = unitsOf(notation) === units ? placeFigure : placeText;
  const stepMm = notation === 'mm' ? 150 : 6 * MM_PER_INCH;
  return ['4.0', '5.5', '7.0'].map((deg, i) => `${say(i * stepMm, notation)}, ${deg}`).join('\n');
}

export function MeasuredTable(props: {
  readonly text: string;
  readonly label: string;
  readonly plan: Pick<Plan, 'units' | 'notation'>;
  readonly onText: (text: string) => void;
}) {
  return (
    <label class="measured-table">
      <span>
        {props.label}{' '}
        <span class="soft">
          a place ({LENGTHS_ARE[props.plan.notation]}), a comma, its bevel in degrees; one a line
        </span>
      </span>
      <textarea
        rows={8}
        spellcheck={false}
        value={props.text}
        placeholder={exampleIn(props.plan)}
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
