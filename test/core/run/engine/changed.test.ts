import { expect, it } from 'vitest';
import { changed } from '../../../../server/core/run/engine/changed.ts';
import { fold } from '../../../../server/core/run/fold.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

it('keeps every field of a state but the ones named', () => {
  const state = fold(smallSetup(), [
    { kind: 'started', atMs: 0, withoutSound: false },
    { kind: 'pressed', gesture: 'next', atMs: 3000 },
    { kind: 'moved', mm: 0, atMs: 3010 },
    { kind: 'tilted', deg: 9, atMs: 3020 },
  ]);
  const tilt = { deg: 8, atMs: 1 };
  expect(changed(state, {})).toEqual(state);
  expect(Object.keys(changed(state, {}))).toEqual(Object.keys(state));
  expect(changed(state, { tilt, wakeAtMs: null })).toEqual({ ...state, tilt, wakeAtMs: null });
  expect(changed(state, { reckoning: null })).toEqual({ ...state, reckoning: null });
});
