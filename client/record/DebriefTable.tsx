import type { Plan } from '../../server/core/plan/plan.ts';
import type { Debrief } from '../../server/core/run/view/debrief.ts';
import { timeOf } from '../../server/wire/kept/dayAndTime.ts';
import { degFigure, lengthsIn, readoutFigure } from '../kit/figures/shownFigures.ts';

const time = (atMs: number | null): string => (atMs === null ? '–' : timeOf(atMs));

export function DebriefTable({ plan, debrief }: { readonly plan: Plan; readonly debrief: Debrief }) {
  const lengths = lengthsIn(plan.notation);
  return (
    <section class="stack">
      <h2>Marks</h2>
      <div class="scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">Mark</th>
              <th scope="col">Along stock{lengths.inHead}</th>
              <th scope="col">Wanted</th>
              <th scope="col">Called at</th>
              <th scope="col">At the blade</th>
              <th scope="col">Tilt then</th>
              <th scope="col">Off by</th>
            </tr>
          </thead>
          <tbody>
            {debrief.marks.map((mark) => (
              <tr key={mark.mark}>
                <th scope="row">{mark.mark}</th>
                <td>{lengths.along(mark.positionMm)}</td>
                <td>{readoutFigure(mark.wantedDeg, Math.min(plan.saw.readoutDeg, 0.1))}°</td>
                <td>{time(mark.calledAtMs)}</td>
                <td>{time(mark.reachedAtMs)}</td>
                <td>{mark.hadDeg === null ? '–' : `${degFigure(mark.hadDeg)}°`}</td>
                <td>{mark.hadDeg === null ? '–' : `${degFigure(mark.hadDeg - mark.wantedDeg)}°`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
