import { roundedDown } from '../../server/core/schedule/roundedDown.ts';

const M_PER_FOOT = 0.3048;

/** A limit of the feed in the user's units, never told as more than it is. */
export function feedAtMost(mPerMin: number, units: 'mm' | 'in'): string {
  const [figure, unit] = units === 'mm' ? [mPerMin, 'm/min'] : [mPerMin / M_PER_FOOT, 'ft/min'];
  const tenths = Math.floor(figure * 10 + 1e-9) / 10;
  return `${tenths >= 1 ? tenths.toFixed(1) : roundedDown(figure)} ${unit}`;
}
