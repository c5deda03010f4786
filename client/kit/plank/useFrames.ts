import { useEffect, useRef } from 'preact/hooks';

/** Calls `draw` at every frame of the screen for as long as the component is there; always the newest `draw`. */
export function useFrames(draw: (nowMs: number) => void): void {
  const newest = useRef(draw);
  newest.current = draw;
  useEffect(() => {
    let frame = requestAnimationFrame(function next(nowMs) {
      frame = requestAnimationFrame(next);
      newest.current(nowMs);
    });
    return () => cancelAnimationFrame(frame);
  }, []);
}
