/**
 * Which way round: a plank fed the wrong end first is scrap. Drawn three times: from above, along the feed as the sawyer sees it,
 * and the two halves in the frame seen from the same place, so that nothing has to be turned in the head.
 */
import type { Plan } from '../../server/core/plan/plan.ts';
import { steepestMark, wayDrawing } from '../../server/core/plan/wayDrawing.ts';
import { FromAbove } from './FromAbove.tsx';
import { InFrame } from './InFrame.tsx';
import { OnSaw } from './OnSaw.tsx';
import { useWidth } from './useWidth.ts';
import './whichWay.css';

/** Narrower than this the two sections stand one under the other. */
const BESIDE_PX = 520;
const GAP_PX = 24;
const SIDE_PX = 56;
const MOST_PX_PER_MM = 4;

export function WhichWay({ plan }: { readonly plan: Plan }) {
  const [box, width] = useWidth(640);
  const mark = steepestMark(plan.marks);
  if (mark === undefined) return null;
  const drawing = wayDrawing(plan, mark);
  const each = width < BESIDE_PX ? width : Math.floor((width - GAP_PX) / 2);
  const xs = [...drawing.inFrame.outer, ...drawing.inFrame.inner].map(([x]) => x);
  const scale = Math.min(MOST_PX_PER_MM, (each - 2 * SIDE_PX) / (Math.max(...xs) - Math.min(...xs)));
  return (
    <div ref={box} class="drawing stack">
      <FromAbove plan={plan} drawing={drawing} width={width} />
      <div class="which-way-sections">
        <OnSaw plan={plan} drawing={drawing} at={mark} width={each} scale={scale} />
        <InFrame plan={plan} drawing={drawing} width={each} scale={scale} />
      </div>
    </div>
  );
}
