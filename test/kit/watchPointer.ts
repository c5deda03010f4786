import type { Page } from 'playwright-core';

/** What an eye reads off the chalked board at a frame: from the drawing's lines and lettering, nothing else. */
export interface PointerSeen {
  /** Unix time of the frame in which it stood on the screen. */
  readonly atMs: number;
  /** Unix time of the frame that drew it. */
  readonly drawnAtMs: number;
  /** The degree at the level of the mark that is wanted. */
  readonly deg: number;
  /** How far the chalk line is off that mark where it meets the blade. */
  readonly lineOffDeg: number;
  readonly figure: string;
  readonly sign: string | null;
  /** The tilt that the guide which came last bears: what a display would show that draws each guide as it comes. */
  readonly arrivedDeg: number | null;
}

/** Watches every frame of a wheel display from outside. Must come before the page is opened. */
export async function watchPointer(page: Page): Promise<() => Promise<PointerSeen[]>> {
  // tsx names each function by a helper of its own, which is not there in the page.
  await page.addInitScript('globalThis.__name ??= (named) => named');
  await page.addInitScript(() => {
    const seen: PointerSeen[] = [];
    Object.assign(window, { pointerSeen: seen });
    let arrivedDeg: number | null = null;
    const Real = WebSocket;
    class Watched extends Real {
      constructor(...asked: ConstructorParameters<typeof Real>) {
        super(...asked);
        this.addEventListener('message', ({ data }) => {
          if (typeof data !== 'string' || !data.startsWith('42["guide"')) return;
          arrivedDeg = JSON.parse(data.slice(2))[1].targetDeg;
        });
      }
    }
    Object.assign(window, { WebSocket: Watched });
    const numbers = (text: string | null | undefined): number[] =>
      (text ?? '').match(/-?\d+(?:\.\d+)?/g)?.map(Number) ?? [];
    let line: { d: string; points: [number, number][] } | null = null;
    let drawnAtMs = 0;
    let arrivedAtFrame: number | null = null;
    // Asked for first, this comes before the page's own frame: what it reads is what stood on the screen until now.
    requestAnimationFrame(function look(nowMs) {
      requestAnimationFrame(look);
      const atMs = performance.timeOrigin + nowMs;
      const [low, high] = document.querySelectorAll('.chalk-degree');
      const wanted = document.querySelector('.chalk-wanted');
      const path = document.querySelector('.chalk-line');
      if (low != null && high != null && wanted !== null && path !== null) {
        const y = (degree: Element): number => numbers(degree.getAttribute('transform'))[1] ?? 0;
        const deg = (degree: Element): number => numbers(degree.textContent?.replace('\u2212', '-'))[0] ?? Number.NaN;
        const perDeg = (y(low) - y(high)) / (deg(high) - deg(low));
        const levelY = numbers(wanted.getAttribute('d'))[1] ?? 0;
        const bladeX = numbers(wanted.getAttribute('d'))[2] ?? 0;
        const scaleY = numbers(low.parentElement?.getAttribute('transform'))[1] ?? Number.NaN;
        // The same path is laid out anew where the sheet takes another size.
        const d = path.getAttribute('d') ?? '';
        if (line?.d !== d) {
          const all = numbers(d);
          line = { d, points: [] };
          for (let i = 0; i + 1 < all.length; i += 2) line.points.push([all[i] ?? 0, all[i + 1] ?? 0]);
        }
        const [lineX = 0, lineY = 0] = numbers(path.parentElement?.getAttribute('transform'));
        const at = bladeX - lineX;
        const next = line.points.findIndex(([x]) => x > at);
        const from: [number, number] = line.points[next - 1] ?? [0, 0];
        const to: [number, number] = line.points[next] ?? [1, 0];
        const crossing = from[1] + ((to[1] - from[1]) * (at - from[0])) / (to[0] - from[0]) + lineY;
        if (drawnAtMs > 0)
          seen.push({
            atMs,
            drawnAtMs,
            deg: deg(low) + (y(low) + scaleY - levelY) / perDeg,
            lineOffDeg: (levelY - crossing) / perDeg,
            figure: document.querySelector('.follow-figure')?.textContent ?? '',
            sign: document.querySelector('[data-sign]')?.getAttribute('data-sign') ?? null,
            arrivedDeg: arrivedAtFrame,
          });
      }
      drawnAtMs = atMs;
      arrivedAtFrame = arrivedDeg;
    });
  });
  return () => page.evaluate(() => (window as unknown as { pointerSeen: PointerSeen[] }).pointerSeen.splice(0));
}
