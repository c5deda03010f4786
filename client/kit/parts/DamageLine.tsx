import type { Damage } from '../../../server/wire/kept/damage.ts';
import { CareShape } from './noticeShapes.tsx';

/** What is wrong with a run's record, wherever the run stands. */
export function DamageLine({ damage }: { readonly damage: Damage | null }) {
  if (damage === null) return null;
  return (
    <span class="damage-line" role="note">
      <CareShape /> {damage.message}
    </span>
  );
}
