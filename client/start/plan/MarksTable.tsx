import { errorFigure } from '../../../server/core/figures/degrees.ts';
import { LENGTHS_ARE } from '../../../server/core/figures/notation.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { degFigure, lengthsIn, readoutFigure } from '../../kit/figures/shownFigures.ts';

export function MarksTable({ plan }: { readonly plan: Plan }) {
  const lengths = lengthsIn(plan.notation);
  const hasErrors = plan.marks.some(({ errorDeg }) => errorDeg !== undefined);
  return (
    <section class="stack">
      <h2>Marks</h2>
      <p class="soft">
        {asHead(LENGTHS_ARE[plan.notation])}, angles in degrees. Mark 1 is at the heel. Edges are square to the flat, at
        the same place of the cut.
      </p>
      <div class="scroll">
        <table class="marks">
          <thead>
            <tr>
              <th scope="col" rowSpan={2}>
                Mark
              </th>
              <th scope="col" rowSpan={2}>
                Call
              </th>
              <th scope="col" rowSpan={2}>
                Girth
              </th>
              <th scope="col" rowSpan={2}>
                Along stock
              </th>
              <th scope="col" rowSpan={2}>
                Bevel
              </th>
              {hasErrors && (
                <th scope="col" rowSpan={2}>
                  May be off
                </th>
              )}
              <th scope="colgroup" colSpan={2}>
                Outer wedge
              </th>
              <th scope="colgroup" colSpan={2}>
                Inner wedge
              </th>
            </tr>
            <tr>
              <th scope="col">forward</th>
              <th scope="col">aft</th>
              <th scope="col">forward</th>
              <th scope="col">aft</th>
            </tr>
          </thead>
          <tbody>
            {plan.marks.map((mark) => (
              <tr key={mark.mark}>
                <th scope="row">{mark.mark}</th>
                <td class="marks-call">{readoutFigure(mark.callDeg, plan.saw.readoutDeg)}</td>
                <td>{lengths.along(mark.girthMm)}</td>
                <td>{lengths.along(mark.stockMm)}</td>
                <td>{degFigure(mark.sawnDeg)}</td>
                {hasErrors && <td>{mark.errorDeg === undefined ? '' : errorFigure(mark.errorDeg)}</td>}
                <td>{lengths.fine(mark.outerEdgesMm[0])}</td>
                <td>{lengths.fine(mark.outerEdgesMm[1])}</td>
                <td>{lengths.fine(mark.innerEdgesMm[0])}</td>
                <td>{lengths.fine(mark.innerEdgesMm[1])}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

const asHead = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
