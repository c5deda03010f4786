import type { Plan } from '../../../server/core/plan/plan.ts';
import { againstSentences, offsetsSentences } from '../../../server/core/text/offsetsSentences.ts';
import { RunOffDrawing } from '../../drawing/RunOffDrawing.tsx';
import { degFigure, lengthsIn } from '../../kit/figures/shownFigures.ts';

/** What the table of offsets tells of the frame beside its bevels, and why it needs the wedges at all. */
export function OffsetsSheet({ plan }: { readonly plan: Plan }) {
  const { offsets, notation } = plan;
  if (offsets === undefined) return null;
  return (
    <section class="sheet offsets-sheet">
      <div class="stack">
        <h2>From the offsets</h2>
        {offsetsSentences(plan).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      <figure>
        <figcaption class="soft">A plain stack without wedges</figcaption>
        <RunOffDrawing runOff={offsets.runOff} notation={notation} />
      </figure>
    </section>
  );
}

/** A frame picked up on the boat, beside the one of the offsets. */
export function AgainstSheet({ plan }: { readonly plan: Plan }) {
  const { against, girthMm, notation } = plan;
  if (against === undefined) return null;
  const lengths = lengthsIn(notation);
  return (
    <section class="sheet offsets-sheet">
      <div class="stack">
        <h2>Beside the offsets</h2>
        {againstSentences(against, girthMm, notation).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      <table class="against">
        <thead>
          <tr>
            <th scope="col">Girth{lengths.inHead}</th>
            <th scope="col">Picked up</th>
            <th scope="col">Offsets</th>
            <th scope="col">Apart</th>
          </tr>
        </thead>
        <tbody>
          {against.rows.map((row) => (
            <tr key={row.girthMm}>
              <td>{lengths.along(row.girthMm)}</td>
              <td>{degFigure(row.pickedUpDeg, 1)}°</td>
              <td>{degFigure(row.offsetsDeg, 1)}°</td>
              <td>{degFigure(row.pickedUpDeg - row.offsetsDeg, 1)}°</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
