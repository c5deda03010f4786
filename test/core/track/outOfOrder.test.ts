import { describe, expect, test } from 'vitest';
import { assimilateInOrder, forgetCount, REMEMBERED, REMEMBERED_MS } from '../../../server/core/track/outOfOrder.ts';
import { placeAt } from '../../../server/core/track/placeAt.ts';
import { type Evidence, startTrack, type Track } from '../../../server/core/track/track.ts';

const count = (atMs: number): Evidence => ({ kind: 'count', atMs, mm: 0.05 * atMs });
function counted(toMs: number, everyMs = 50): Track {
  let track = startTrack(0.05);
  for (let atMs = 0; atMs <= toMs; atMs += everyMs) track = assimilateInOrder(track, count(atMs)).track;
  return track;
}

describe('a count that is believed no longer', () => {
  test('is forgotten, and the place stays', () => {
    const forgot = forgetCount(counted(3000));
    expect(forgot.now?.count).toBeNull();
    expect(placeAt(forgot, 3000)).toEqual(placeAt(counted(3000), 3000));
    expect(forgetCount(startTrack(0.05))).toEqual(startTrack(0.05));
  });

  test('begins anew where the wood is, and nothing older than that moment is worked in', () => {
    const forgot = forgetCount(counted(3000));
    const again = assimilateInOrder(forgot, { kind: 'count', atMs: 3050, mm: 9000 });
    expect(again.verdict).toBe('taken');
    expect(placeAt(again.track, 3050)?.positionMm).toBeCloseTo(152.5, 6);
    expect(assimilateInOrder(again.track, count(2900)).verdict).toBe('too-late');
  });
});

describe('a late reading', () => {
  test('is worked in as long as a second is remembered, and leaves the track alone when it is older', () => {
    const track = counted(5000);
    expect(assimilateInOrder(track, count(5000 - REMEMBERED_MS + 1)).verdict).toBe('late');
    const tooLate = assimilateInOrder(track, count(5000 - REMEMBERED_MS - 51));
    expect(tooLate).toEqual({ track, verdict: 'too-late' });
  });

  test('of a source that speaks very often is too late sooner', () => {
    const track = counted(3000, 2);
    expect(assimilateInOrder(track, count(3000 - 2 * REMEMBERED + 11)).verdict).toBe('late');
    expect(assimilateInOrder(track, count(3000 - 2 * REMEMBERED - 11)).verdict).toBe('too-late');
  });

  test('that is false is told as that', () => {
    const placed = assimilateInOrder(counted(5000), { kind: 'fix', by: 'scan', atMs: 5000, positionMm: 250 }).track;
    let track = placed;
    for (let atMs = 5050; atMs <= 5500; atMs += 50) track = assimilateInOrder(track, count(atMs)).track;
    const wrong: Evidence = { kind: 'fix', by: 'scan', atMs: 5320, positionMm: 900 };
    expect(assimilateInOrder(track, wrong).verdict).toBe('false');
  });
});
