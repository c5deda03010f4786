import type { Page } from 'playwright-core';

/** What an eye at the saw would find wrong with a page as it stands: in words, with the text that it is about. */
export async function faultsOnPage(page: Page): Promise<readonly string[]> {
  // A machine that is busy with other things may seem gone for a moment.
  await page.locator('.gone').waitFor({ state: 'detached' });
  return page.evaluate(async () => {
    for (let frame = 0; frame < 3; frame++) await new Promise(requestAnimationFrame);
    const faults: string[] = [];
    interface Word {
      readonly of: Element;
      readonly text: string;
      readonly box: DOMRect;
    }
    // A line's box is higher than its letters: of 1.2 times the type's size, capitals and digits take the middle 0.7.
    const inkOf = ({ x, y, width, height }: DOMRect): DOMRect =>
      new DOMRect(x, y + height * 0.24, width, height * (1 - 0.24 - 0.16));
    const isSeen = (element: Element): boolean =>
      element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
      element.closest('.unseen, option, title') === null;
    const words: Word[] = [];
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = texts.nextNode(); node !== null; node = texts.nextNode()) {
      const of = node.parentElement;
      const text = (node.textContent ?? '').trim();
      if (of === null || text === '' || !isSeen(of)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      const boxes = of instanceof SVGElement ? [of.getBoundingClientRect()] : [...range.getClientRects()];
      for (const box of boxes) if (box.width > 0.5) words.push({ of, text, box: inkOf(box) });
    }
    const isOver = (a: DOMRect, b: DOMRect, byPx: number): boolean =>
      Math.min(a.right, b.right) - Math.max(a.left, b.left) > byPx &&
      Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > byPx;

    // Cut off: by whatever clips, and by the screen (a page that scrolls, only at its sides).
    const isScrolled = document.documentElement.scrollHeight > innerHeight + 1;
    for (const { of, text, box } of words) {
      // What has passed the blade slides out; a title may be longer than its line.
      if (of.closest('.plank-passed, .state-title') !== null) continue;
      let isCut = box.left < -1 || box.right > innerWidth + 1;
      if (!isScrolled) isCut ||= box.top < -1 || box.bottom > innerHeight + 1;
      for (let around: Element | null = of; around !== null; around = around.parentElement) {
        const clips = around instanceof SVGSVGElement || getComputedStyle(around).overflowX !== 'visible';
        if (!clips || around === document.body || around === document.documentElement) continue;
        const { left, right, top, bottom } = around.getBoundingClientRect();
        isCut ||= box.left < left - 1 || box.right > right + 1 || box.top < top - 1 || box.bottom > bottom + 1;
      }
      if (isCut) faults.push(`cut off: ${text}`);
    }
    // One over another.
    for (const [index, a] of words.entries())
      for (const b of words.slice(index + 1))
        if (a.of !== b.of && isOver(a.box, b.box, 1)) faults.push(`over each other: ${a.text} | ${b.text}`);
    // The blade's line through a figure, or a bar of another part over it.
    for (const blade of document.querySelectorAll('.plank-blade, .chalk-blade')) {
      const { x, y, height } = blade.getBoundingClientRect();
      const line = new DOMRect(x - 1.5, y, 3, height);
      for (const { of, text, box } of words)
        if (of instanceof SVGElement && isOver(line, box, 0.5)) faults.push(`crossed by the blade: ${text}`);
    }
    // Parts of the wheel display lie beside each other, and show all of what is in them.
    const parts = [...document.querySelectorAll('.wheel > *')].map((of) => ({ of, box: of.getBoundingClientRect() }));
    for (const [index, a] of parts.entries()) {
      for (const b of parts.slice(index + 1))
        if (isOver(a.box, b.box, 1)) faults.push(`over each other: ${a.of.className} | ${b.of.className}`);
      for (const { of, text, box } of words) {
        const isIn =
          box.left >= a.box.left - 1 &&
          box.right <= a.box.right + 1 &&
          box.top >= a.box.top - 1 &&
          box.bottom <= a.box.bottom + 1;
        if (a.of.contains(of) && !isIn && of.closest('.plank, .chalk') === null)
          faults.push(`outside of ${a.of.className}: ${text}`);
      }
    }
    for (const bar of document.querySelectorAll('.state-bar, .foot')) {
      const within = bar.getBoundingClientRect();
      for (const part of bar.children) {
        const box = part.getBoundingClientRect();
        const isIn =
          box.top >= within.top - 0.5 &&
          box.bottom <= within.bottom + 0.5 &&
          box.left >= within.left - 0.5 &&
          box.right <= within.right + 0.5;
        if (!isIn) faults.push(`does not fit into ${bar.className}: ${part.textContent}`);
      }
    }
    // What is to be pressed or turned is where the finger goes.
    const isFree = (of: Element, x: number, y: number): boolean => {
      const at = document.elementFromPoint(x, y);
      return at !== null && (of.contains(at) || at.contains(of));
    };
    const rim = document.querySelector('.handwheel svg');
    if (rim !== null) {
      const { x, y, width, height } = rim.getBoundingClientRect();
      const radius = Math.min(width, height) / 2;
      if (radius < 55) faults.push(`the handwheel is ${Math.round(2 * radius)} px wide`);
      for (const [dx, dy] of [
        [0, 0],
        [0, -0.8],
        [0.8, 0],
        [0, 0.8],
        [-0.8, 0],
      ] as const)
        if (!isFree(rim, x + width / 2 + dx * radius, y + height / 2 + dy * radius))
          faults.push('something lies over the handwheel');
    }
    for (const button of document.querySelectorAll('.foot button, .foot .button, .stop, button.next')) {
      const { left, right, top, bottom } = button.getBoundingClientRect();
      const isOnScreen = left >= 0 && top >= 0 && right <= innerWidth && bottom <= innerHeight;
      if (!isOnScreen) faults.push(`not on the screen: ${button.textContent}`);
      else if (!isFree(button, (left + right) / 2, (top + bottom) / 2)) faults.push(`covered: ${button.textContent}`);
    }
    return [...new Set(faults)];
  });
}

/** Where what is looked at and pressed stands, as one text each: the same in every state of a run. */
export const placesOnPage = (page: Page): Promise<Readonly<Record<string, string>>> =>
  page.evaluate(() => {
    const places: Record<string, string> = {};
    for (const selector of ['.face', '.foot-stop', '.stop', '.next', '.controls-small', '.handwheel svg']) {
      const part = document.querySelector(selector);
      const box = part?.getBoundingClientRect();
      // What is to be done in a loss has more room.
      if (box !== undefined && part?.querySelector('.lost') === null)
        places[selector] = [box.x, box.y, box.width, box.height].map(Math.round).join(' ');
    }
    return places;
  });
