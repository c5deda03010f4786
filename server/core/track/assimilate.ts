/** What one piece of evidence makes of what is known. */

import { type Belief, learn, type Mean, surprise } from './kalman.ts';
import { beliefAt, CAMERA_FIXES, FRESH_MS } from './predict.ts';
import type { Evidence, EvidenceVerdict, Known } from './track.ts';

/** A scanned code is read within a millimetre of its line (assumption); a hand scanner is slower than that, see PRESS. */
const SCAN_SD_MM = 1;
/** A person presses within a tenth of a second of the mark (assumption). */
const PRESS_SD_MS = 100;
const PRESS_SD_MM = 1;
/** Rounding of the count and roughness under the wheel (assumption). */
const COUNT_SD_MM = 0.15;
/** Before anything is known of it the speed is the usual one, give or take half. */
const USUAL_SHARE = 0.5;
/** After a pause the stock takes up its old speed, give or take a quarter. */
const RESUMED_SHARE = 0.25;
/** A count off by so many standard deviations means that the feed has changed: the speed is asked anew. */
const CHANGED_SDS = 3;
/** An absolute reading off by so many is false, where the position is well known otherwise. */
const FALSE_SDS = 6;
const FALSE_MM = 20;
const FALSE_TO_CAMERA_MM = 12;
/**
 * A camera speaks so often that single readings cry wolf, and too late: how far they lean to one side together tells a change
 * of feed. Source: Roberts, Control chart tests based on geometric moving averages, Technometrics 1 (1959) (from memory); its
 * width is 1 / sqrt(1 - LEAN_KEPT^2) for readings that only scatter. Tuned on the modelled feed.
 */
const LEAN_KEPT = 0.6;
const LEANS_SDS = 3.3;
/** Three false readings in a row that agree with each other are right, and the track was wrong. */
const REFUSED_WIN = 3;
const AGREE_MM = 15;
/** A count that falls by more was begun anew by its source: nobody pulls stock back so fast. */
const RESTARTED_MM = 100;
/** Nor pushes it on so: a count that leaps is a source that was begun anew, or a bad reading. */
const JUMPED_MM = 1000;
const FASTEST_MM_PER_MS = 0.5;

interface Worked {
  readonly known: Known | null;
  readonly verdict: EvidenceVerdict;
}

/** The evidence is worked in at its own time, which is not before what is known already. */
export function assimilate(known: Known | null, evidence: Evidence, usualMmPerMs: number): Worked {
  switch (evidence.kind) {
    case 'fix':
      return known === null ? firstFix(evidence, usualMmPerMs) : fixed(known, evidence);
    case 'count':
      return counted(known ?? startedByCount(evidence.atMs, usualMmPerMs), evidence);
    case 'standing':
      return { known: known && stood(known, evidence.atMs), verdict: 'taken' };
    case 'moving':
      return { known: known && movedOn(known, evidence.atMs), verdict: 'taken' };
  }
}

type Fix = { readonly atMs: number; readonly positionMm: number; readonly by: 'scan' | 'press' };

function firstFix({ atMs, positionMm, by }: Fix, usualMmPerMs: number): Worked & { readonly known: Known } {
  const sdMm = by === 'scan' ? SCAN_SD_MM : Math.hypot(PRESS_SD_MM, PRESS_SD_MS * usualMmPerMs);
  const speedVariance = (USUAL_SHARE * usualMmPerMs) ** 2;
  return {
    verdict: 'taken',
    known: {
      belief: { atMs, mean: [positionMm, usualMmPerMs, 0], cov: [sdMm ** 2, 0, 0, 0, speedVariance, 0, 0, 0, 0] },
      isStanding: false,
      cruiseMmPerMs: usualMmPerMs,
      count: null,
      fix: { atMs, by },
      recentFixesMs: [atMs],
      lean: 0,
      refused: [],
    },
  };
}

/** The first count is position 0 by agreement; no mark has said so yet. */
function startedByCount(atMs: number, usualMmPerMs: number): Known {
  return { ...firstFix({ atMs, positionMm: 0, by: 'scan' }, usualMmPerMs).known, fix: null, recentFixesMs: [] };
}

/** So little is a place worth that rests on that agreement alone, once a mark speaks. */
const AGREED_MM2 = 1e6;

const ABSOLUTE: Mean = [1, 0, 0];
const COUNTED: Mean = [1, 0, -1];

const isCamera = ({ recentFixesMs }: Known, atMs: number): boolean =>
  recentFixesMs.filter((at) => atMs - at < FRESH_MS).length >= CAMERA_FIXES;

function fixed(known: Known, fix: Fix): Worked {
  const belief = known.fix === null ? doubted(beliefAt(known, fix.atMs), AGREED_MM2) : beliefAt(known, fix.atMs);
  const sdMm = fix.by === 'scan' ? SCAN_SD_MM : Math.hypot(PRESS_SD_MM, PRESS_SD_MS * Math.abs(belief.mean[1]));
  const reading = { h: ABSOLUTE, wanted: fix.positionMm, variance: sdMm ** 2 };
  const { off, variance } = surprise(belief, reading);
  const recentFixesMs = [...known.recentFixesMs.filter((at) => fix.atMs - at < FRESH_MS), fix.atMs].slice(-20);
  const isSharp = isCamera(known, fix.atMs);
  const isOff = Math.abs(off) > Math.max(isSharp ? FALSE_TO_CAMERA_MM : FALSE_MM, FALSE_SDS * Math.sqrt(variance));
  // A person's foot is believed; what a reader reads can be another mark's code.
  if (isOff && fix.by === 'scan' && isWellKnown(known, fix.atMs)) {
    const refused = [...known.refused, { positionMm: fix.positionMm, atMs: fix.atMs }];
    if (!agree(refused, belief.mean[1])) return { known: { ...known, refused: refused.slice(-1) }, verdict: 'false' };
    if (refused.length < REFUSED_WIN) return { known: { ...known, refused }, verdict: 'false' };
  }
  // Only a run of fixes can lean; two presses lie too far apart.
  const lean = isSharp ? LEAN_KEPT * known.lean + off / Math.sqrt(variance) : 0;
  const isChanged = isSharp ? isLeaning(lean) : Math.abs(off) > CHANGED_SDS * Math.sqrt(variance);
  const isSurprise = isOff || isChanged;
  // While travel is counted the speed is known: then it is the count's zero that was wrong, and it goes along.
  const asked = !isSurprise ? belief : known.count === null ? openMind(belief, off) : doubted(belief, off ** 2);
  const learnt = learn(asked, reading);
  return {
    verdict: 'taken',
    known: {
      ...known,
      belief: keepForward(learnt),
      cruiseMmPerMs: known.isStanding ? known.cruiseMmPerMs : Math.max(0, learnt.mean[1]),
      fix: { atMs: fix.atMs, by: fix.by },
      recentFixesMs,
      lean: isSurprise ? 0 : lean,
      refused: [],
    },
  };
}

const isLeaning = (lean: number): boolean => Math.abs(lean) * Math.sqrt(1 - LEAN_KEPT ** 2) > LEANS_SDS;

/** Well known: counted all the time and placed by a mark before, or seen by a camera. Otherwise an absolute reading is believed. */
function isWellKnown(known: Known, atMs: number): boolean {
  const isCounted = known.count !== null && atMs - known.count.atMs < FRESH_MS && known.fix !== null;
  return isCounted || isCamera(known, atMs);
}

function agree(refused: Known['refused'], speedMmPerMs: number): boolean {
  return refused.slice(1).every((each, index) => {
    const last = refused[index];
    return (
      last !== undefined &&
      Math.abs(each.positionMm - last.positionMm - speedMmPerMs * (each.atMs - last.atMs)) < AGREE_MM
    );
  });
}

function counted(known: Known, { atMs, mm }: { readonly atMs: number; readonly mm: number }): Worked {
  const { count: last } = known;
  const belief = beliefAt(known, atMs);
  const count = { mm, atMs, everyMs: last === null ? null : smoothed(last.everyMs, atMs - last.atMs) };
  if (last === null || isCountBegunAnew(last, mm, atMs))
    return {
      known: { ...known, belief: withZero(belief, mm), count },
      verdict: last === null ? 'taken' : 'restarted',
    };
  const reading = { h: COUNTED, wanted: mm, variance: COUNT_SD_MM * COUNT_SD_MM };
  const { off, variance } = surprise(belief, reading);
  const isChanged = off * off > CHANGED_SDS * CHANGED_SDS * variance;
  const learnt = learn(isChanged ? openMind(belief, off) : belief, reading);
  // Field by field: this is done for every reading, and copying by `...` takes twenty times as long.
  return {
    known: {
      belief: learnt,
      isStanding: known.isStanding,
      cruiseMmPerMs: known.isStanding ? known.cruiseMmPerMs : Math.max(0, learnt.mean[1]),
      count,
      fix: known.fix,
      recentFixesMs: known.recentFixesMs,
      lean: known.lean,
      refused: known.refused,
    },
    verdict: 'taken',
  };
}

function isCountBegunAnew(count: NonNullable<Known['count']>, mm: number, atMs: number): boolean {
  const rise = mm - count.mm;
  return rise < -RESTARTED_MM || rise > JUMPED_MM + FASTEST_MM_PER_MS * (atMs - count.atMs);
}

const smoothed = (before: number | null, newest: number): number =>
  before === null ? newest : before + 0.2 * (newest - before);

/** The count's zero, from the position as it is believed: as uncertain as that, and in step with it. */
function withZero({ atMs, mean: [x, v], cov: [a, b, , , e] }: Belief, mm: number): Belief {
  return { atMs, mean: [x, v, x - mm], cov: [a, b, a, b, e, b, a, b, a + COUNT_SD_MM ** 2] };
}

/** The place alone is doubted, and the count's zero with it; the speed is not. */
function doubted({ atMs, mean, cov }: Belief, byMm2: number): Belief {
  const [a, b, c, d, e, f, g, h, i] = cov;
  return { atMs, mean, cov: [a + byMm2, b, c + byMm2, d, e, f, g + byMm2, h, i + byMm2] };
}

/** The feed is not what it was: the speed may be anything that explains what is seen. */
function openMind({ atMs, mean, cov }: Belief, offMm: number): Belief {
  const [a, b, c, d, e, f, g, h, i] = cov;
  const speedVariance = e + Math.max(0.25 * mean[1] ** 2, 4e-4);
  // A small surprise is a change of speed under way; a large one means that the place was wrong too.
  const placeVariance = a + (Math.abs(offMm) > FALSE_MM ? offMm ** 2 : 0.1 * offMm ** 2);
  return { atMs, mean, cov: [placeVariance, b, c, d, speedVariance, f, g, h, i] };
}

/** Wood goes backward only in a count or a camera's eye; marks alone never say so. */
const keepForward = (belief: Belief): Belief =>
  belief.mean[1] < 0 ? { ...belief, mean: [belief.mean[0], 0, belief.mean[2]] } : belief;

function stood(known: Known, atMs: number): Known {
  const { mean, cov } = beliefAt(known, atMs);
  // It runs on a little: a quarter of a second of what it went at (assumption).
  const runOn = (0.25 * 1000 * mean[1]) ** 2;
  const [a, , c, , , , g, , i] = cov;
  return {
    ...known,
    isStanding: true,
    belief: { atMs, mean: [mean[0], 0, mean[2]], cov: [a + runOn, 0, c, 0, 0, 0, g, 0, i] },
  };
}

function movedOn(known: Known, atMs: number): Known {
  const { mean, cov } = beliefAt(known, atMs);
  const speed = known.cruiseMmPerMs;
  const [a, , c, , , , g, , i] = cov;
  return {
    ...known,
    isStanding: false,
    belief: { atMs, mean: [mean[0], speed, mean[2]], cov: [a, 0, c, 0, (RESUMED_SHARE * speed) ** 2, 0, g, 0, i] },
  };
}
