import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

export interface Box {
  readonly width: number;
  readonly height: number;
}

/** The size that an element has on the screen; null until it was measured. */
export function useBox(): readonly [RefObject<HTMLDivElement | null>, Box | null] {
  const element = useRef<HTMLDivElement>(null);
  const [box, setBox] = useState<Box | null>(null);
  useEffect(() => {
    if (element.current === null) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry === undefined) return;
      const { width, height } = entry.contentRect;
      setBox({ width: Math.max(40, Math.round(width)), height: Math.max(40, Math.round(height)) });
    });
    watch.observe(element.current);
    return () => watch.disconnect();
  }, []);
  return [element, box];
}
