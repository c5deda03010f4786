/** What a shop may choose about a rip, with what is taken where the job does not say. */
import type { Job, RipChoices } from '../job.ts';

export const RIP_DEFAULTS: RipChoices = {
  feeds: 'along a fence',
  /** Thinner ones crumble at the blade. Common practice (not under 3 mm), no source. */
  thinnestEdgeMm: 3,
  /** On each face that is dressed before the rip. Common practice (1.5 to 3 mm), no source. */
  cleaningUpMm: 2,
  /** At each end. Common practice (150 to 300 mm), no source. */
  endWasteMm: 200,
  /** The planking lies on the outer wedge; a bevel that is off inside shows at most under a ceiling, and a plane takes it off. */
  favours: 'outer',
  heelBeyondMm: 0,
  headBeyondMm: 0,
};

export const ripChoices = ({ rip }: Pick<Job, 'rip'>): RipChoices => ({ ...RIP_DEFAULTS, ...rip });

/** Height above the table at which the cut runs straight along the stock. */
export const straightAtMm = (job: Pick<Job, 'rip' | 'saw' | 'frame'>): number => {
  const { feeds, lineHeightMm } = ripChoices(job);
  return (feeds === 'along a fence' ? job.saw.pivotHeightMm : (lineHeightMm ?? job.frame.sidingMm / 2)) + 0;
};
