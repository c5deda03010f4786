/**
 * The fastest feed at which work that lies along the stock can be kept up with.
 *
 * Each place has the seconds of work that were needed to come there (turning the wheel, saying figures), counted up from any
 * zero. Over a stretch of the stock so much work is needed as its ends differ by, less the slack that it may be behind; the
 * feed must leave that time. A place is limited by the worst of all stretches that contain it: a feed that is right at every
 * place is then right over every stretch. For smooth work and no slack this is the steepest slope; with slack a short steep
 * place may be run over. Derived: a hand that is at the place where it falls behind, and works at its full rate from there, is
 * behind at the end of the stretch by just this. A stretch that begins or ends where nothing is to be done, or the other way, is
 * left out: the one without that end asks for more.
 */

import { rowAt } from '../rowAt.ts';

/**
 * Seconds of work a millimetre that each span between two neighbouring places needs, at least 0; one less than places.
 * Time grows with the square of their number.
 */
export function requiredRate(alongMm: readonly number[], workS: readonly number[], slackS: number): readonly number[] {
  const spans = Math.max(0, alongMm.length - 1);
  const needed = new Float64Array(spans);
  const [along, work] = [Float64Array.from(alongMm), Float64Array.from(workS)];
  const ways = Int8Array.from({ length: spans }, (_, i) => Math.sign(rowAt(work, i + 1) - rowAt(work, i)));
  for (let from = 0; from < spans; from += 1) {
    const way = rowAt(ways, from);
    if (way === 0) continue;
    const [startMm, startS] = [rowAt(along, from), rowAt(work, from)];
    let worst = 0;
    // From the far end inward: every stretch that begins here and ends beyond a span contains it.
    for (let to = spans; to > from; to -= 1) {
      // Its first and its last span go the way that the whole stretch goes.
      if (ways[to - 1] === way) {
        const behindS = way * (rowAt(work, to) - startS) - slackS;
        const lengthMm = Math.abs(rowAt(along, to) - startMm);
        if (behindS > worst * lengthMm && lengthMm > 0) worst = behindS / lengthMm;
      }
      if (worst > rowAt(needed, to - 1)) needed[to - 1] = worst;
    }
  }
  return Array.from(needed);
}
