/** How far a place may be trusted: whether it is still known, guessed, or no longer to be called from. */

import { placeAt, type TrackedPlace } from './placeAt.ts';
import { CAMERA_FIXES } from './predict.ts';
import type { Known, Track } from './track.ts';

export type Trust = 'known' | 'guessing' | 'lost';

/** A regular source that is silent for half a second, or four of its intervals, is lost; for half of either, guessed at. */
const LOST_MS = 500;
const LOST_INTERVALS = 4;
/** A place that is doubtful by a third of the way between two marks can be the next one's (assumption); by a sixth, is a guess. */
const LOST_SHARE = 1 / 3;
const GUESSING_SHARE = 1 / 6;

/**
 * What may be made of the place at `atMs`, where marks lie `spacingMm` apart. Silence counts for a source that speaks
 * regularly, doubt (one standard deviation) for every one. Wood that a person holds still is as well known as when it stopped.
 */
export function trustAt(track: Track, atMs: number, spacingMm: number): Trust {
  const place = placeAt(track, atMs);
  if (track.now === null || place === null) return 'lost';
  return worse(bySilence(track.now, atMs), byDoubt(place, spacingMm));
}

function bySilence(known: Known, atMs: number): Trust {
  const heard = [known.count, camera(known.recentFixesMs)].filter((source) => source !== null);
  if (known.isStanding || heard.length === 0) return 'known';
  // While one of them speaks, the place is seen.
  const patienceLeft = heard.map(({ atMs: lastMs, everyMs }) => {
    const patienceMs = Math.max(LOST_MS, LOST_INTERVALS * (everyMs ?? 0));
    return 1 - (atMs - lastMs) / patienceMs;
  });
  const left = Math.max(...patienceLeft);
  if (left <= 0) return 'lost';
  return left < 0.5 ? 'guessing' : 'known';
}

/** Its fixes are remembered until the next one, however long that takes. */
function camera(fixesMs: readonly number[]): { readonly atMs: number; readonly everyMs: number } | null {
  const [first, last] = [fixesMs[0], fixesMs.at(-1)];
  if (first === undefined || last === undefined || fixesMs.length < CAMERA_FIXES) return null;
  return { atMs: last, everyMs: (last - first) / (fixesMs.length - 1) };
}

function byDoubt({ sdMm }: TrackedPlace, spacingMm: number): Trust {
  if (sdMm > LOST_SHARE * spacingMm) return 'lost';
  return sdMm > GUESSING_SHARE * spacingMm ? 'guessing' : 'known';
}

const ORDER: readonly Trust[] = ['known', 'guessing', 'lost'];
const worse = (a: Trust, b: Trust): Trust => (ORDER.indexOf(a) > ORDER.indexOf(b) ? a : b);
