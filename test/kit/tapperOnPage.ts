import type { Page } from 'playwright-core';

/**
 * A modelled tapper in the page: hears each click `lateMs` after the browser believes that it has left the device, sees each flash
 * a screen's time after the frame, and taps the pad so long after it as a person does. Pauses are cut short. Before the page is opened.
 */
export async function tapperOnPage(
  page: Page,
  asked: { readonly lateMs: number; readonly clickS: number },
): Promise<void> {
  await page.addInitScript(({ lateMs, clickS }) => {
    const SOUND_MS = 160;
    const LIGHT_MS = 195;
    const SCREEN_MS = 25;
    // Shorter pauses than a person is given: nothing else on these pages is left to chance.
    Math.random = () => -0.5;
    const tapAt = (atMs: number): void => {
      setTimeout(() => {
        const pad = document.querySelector('.tap-pad');
        pad?.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));
      }, atMs - performance.now());
    };
    const { start } = AudioBufferSourceNode.prototype;
    AudioBufferSourceNode.prototype.start = function (this: AudioBufferSourceNode, when = 0, ...more: number[]) {
      const isClick = Math.abs((this.buffer?.duration ?? 0) - clickS) < 0.001;
      if (isClick && this.context instanceof AudioContext) {
        const { contextTime = 0, performanceTime = 0 } = this.context.getOutputTimestamp();
        tapAt(performanceTime + 1000 * (when - contextTime) + lateMs + SOUND_MS);
      }
      return start.call(this, when, ...more);
    };
    new MutationObserver((changes) => {
      for (const { target } of changes)
        if (target instanceof Element && target.classList.contains('tap-lit'))
          tapAt(performance.now() + SCREEN_MS + LIGHT_MS);
    }).observe(document, { subtree: true, attributes: true, attributeFilter: ['class'] });
  }, asked);
}
