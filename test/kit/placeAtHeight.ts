import type { FramePlace, HullFrame } from '../../server/core/frame/hullFrame.ts';

/** The place of a frame at a height that it passes once on its way up, by halving. */
export function placeAtHeight(frame: HullFrame, zMm: number): FramePlace {
  let [low, high] = [0, frame.girthMm];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (frame.at(middle).zMm < zMm) low = middle;
    else high = middle;
  }
  return frame.at(low);
}
