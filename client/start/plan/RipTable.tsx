import { wholeFigure } from '../../../server/core/figures/shares.ts';
import type { BendPlan } from '../../../server/core/plan/bendPlan.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { RipPlan } from '../../../server/core/plan/ripPlan.ts';
import { degFigure, lengthsIn } from '../../kit/figures/shownFigures.ts';

/** The line on both sides of the stock, the inner wedge's places and what is left on it, bend and twist at every mark. */
export function RipTable(props: { readonly plan: Plan; readonly rip: RipPlan; readonly bend: BendPlan }) {
  const { plan, rip, bend } = props;
  const lengths = lengthsIn(plan.notation);
  const bends = new Map(bend.marks.map((at) => [at.mark, at]));
  const twists = new Map(rip.blade.marks.map((at) => [at.mark, at]));
  return (
    <div class="scroll">
      <table class="marks">
        <thead>
          <tr>
            <th scope="col" rowSpan={2}>
              Mark
            </th>
            <th scope="colgroup" colSpan={2}>
              Line, from the {rip.feeds === 'along a fence' ? 'face at the fence' : 'reference face'}
            </th>
            <th scope="colgroup" colSpan={2}>
              Inner wedge
            </th>
            <th scope="colgroup" colSpan={3}>
              Bend: radius ÷ thickness
            </th>
            <th scope="colgroup" colSpan={2}>
              Twist after it, °/m
            </th>
          </tr>
          <tr>
            <th scope="col">above</th>
            <th scope="col">below</th>
            <th scope="col">falls at</th>
            <th scope="col">left, °</th>
            <th scope="col">outer</th>
            <th scope="col">inner</th>
            <th scope="col">at least</th>
            <th scope="col">asked</th>
            <th scope="col">followed</th>
          </tr>
        </thead>
        <tbody>
          {plan.marks.map(({ mark, lineTopMm, lineBottomMm, innerStockMm, innerLeftDeg = 0 }) => {
            const at = bends.get(mark);
            const twist = twists.get(mark);
            return (
              <tr key={mark}>
                <th scope="row">{mark}</th>
                <td>{lengths.fine(lineTopMm)}</td>
                <td>{lengths.fine(lineBottomMm)}</td>
                <td>{lengths.fine(innerStockMm)}</td>
                <td>{degFigure(innerLeftDeg)}</td>
                <td>{at === undefined ? '' : wholeFigure(at.outer.radiusOverThickness)}</td>
                <td>{at === undefined ? '' : wholeFigure(at.inner.radiusOverThickness)}</td>
                <td>
                  {at === undefined ? '' : `${bend.leastRadiusOverThickness}${at.isTooSharp ? ' too sharp' : ''}`}
                </td>
                <td>{twist === undefined ? '' : degFigure(twist.degPerM, 1)}</td>
                <td>
                  {twist === undefined
                    ? ''
                    : `${degFigure(twist.limitDegPerM, 1)}${twist.isTooFast ? ' too fast' : ''}`}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
