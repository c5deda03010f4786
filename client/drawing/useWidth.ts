import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** The width that a drawing has on the page, so that its lettering keeps its size on a phone as on a desk. */
export function useWidth(guess: number): readonly [RefObject<HTMLDivElement | null>, number] {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(guess);
  useEffect(() => {
    if (box.current === null) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry !== undefined) setWidth(Math.max(280, Math.round(entry.contentRect.width)));
    });
    watch.observe(box.current);
    return () => watch.disconnect();
  }, []);
  return [box, width];
}
